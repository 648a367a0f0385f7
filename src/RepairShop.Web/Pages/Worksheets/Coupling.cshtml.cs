using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class CouplingModel(WorksheetService sheets) : SheetModel<CouplingModel.InputModel, CouplingWorked>(sheets)
{
    private const string UsualSpeeds = "1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500";

    protected override Result<CouplingWorked> Work() => CouplingSheet.Work(Input.Typed());

    protected override WorksheetFinding? FindingOf(CouplingWorked worked) => worked.Finding;

    protected override void Begin(WorksheetRepair repair)
    {
        if (repair.Dial.Count > 0)
            Input.Speeds ??= string.Join(' ', repair.Dial);
        Input.Speeds ??= UsualSpeeds;
    }

    public sealed class InputModel
    {
        public double? Value { get; set; }

        [StringLength(200)]
        public string? Speeds { get; set; }

        [StringLength(200)]
        public string? Apertures { get; set; } = CouplingSheet.UsualApertures;

        public double? LimitStops { get; set; } = 0.25;

        public List<LineInput> Lines { get; set; } = [];

        public CouplingTyped Typed() => new(
            Value, Speeds ?? "", Apertures ?? "", LimitStops, [.. Lines.Select(line => new CouplingLine(line.Speed ?? "", line.Holds, line.Read))]);
    }

    public sealed class LineInput
    {
        [StringLength(20)]
        public string? Speed { get; set; }

        public bool Holds { get; set; }

        public double? Read { get; set; }
    }
}
