using Microsoft.AspNetCore.Mvc;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Gauges;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class RangefinderModel(WorksheetService sheets) : SheetModel<RangefinderModel.InputModel, RangefinderWorked>(sheets)
{
    private const int Rows = 4;

    protected override Result<RangefinderWorked> Work() => RangefinderSheet.Work(Input.Typed());

    protected override WorksheetFinding? FindingOf(RangefinderWorked worked) => worked.Finding;

    protected override void Complete()
    {
        while (Input.Lines.Count < Rows || Input.Lines[^1] is { Target: not null, Shown: not null })
            Input.Lines.Add(new LineInput());
    }

    public sealed class InputModel
    {
        public DistanceUnit Unit { get; set; }

        public double? FocalLength { get; set; } = 50;

        public double? FNumber { get; set; } = 2;

        public double? Circle { get; set; } = Focus.CommonCircle;

        public double? BaseLength { get; set; }

        public double? Magnification { get; set; } = 1;

        public List<LineInput> Lines { get; set; } = [];

        public RangefinderTyped Typed() => new(
            Unit, FocalLength, FNumber, Circle, BaseLength, Magnification, [.. Lines.Select(line => new RangefinderLine(line.Target, line.Shown))]);
    }

    public sealed class LineInput
    {
        [ModelBinder<DistanceBinder>]
        public double? Target { get; set; }

        [ModelBinder<DistanceBinder>]
        public double? Shown { get; set; }
    }
}
