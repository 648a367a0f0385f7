using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class MeterModel(WorksheetService sheets) : SheetModel<MeterModel.InputModel, MeterWorked>(sheets)
{
    private const int Rows = 6;

    protected override Result<MeterWorked> Work() => MeterSheet.Work(Input.Typed());

    protected override WorksheetFinding? FindingOf(MeterWorked worked) => worked.Finding;

    protected override void Complete()
    {
        while (Input.Lines.Count < Rows || Input.Lines[^1] is { Light: not null, Reading.Length: > 0 })
            Input.Lines.Add(new LineInput());
    }

    public sealed class InputModel
    {
        public MeterLight Light { get; set; }

        public double? FilmSpeed { get; set; } = 100;

        public double? Constant { get; set; }

        public double? LimitStops { get; set; } = 0.5;

        public List<LineInput> Lines { get; set; } = [];

        public MeterTyped Typed() =>
            new(Light, FilmSpeed, Constant, LimitStops, [.. Lines.Select(line => new MeterLine(line.Light, line.Reading ?? ""))]);
    }

    public sealed class LineInput
    {
        public double? Light { get; set; }

        [StringLength(40)]
        public string? Reading { get; set; }
    }
}
