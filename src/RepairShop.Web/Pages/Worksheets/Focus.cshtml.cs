using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Worksheets;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class FocusModel(WorksheetService sheets) : SheetModel<FocusModel.InputModel, FocusWorked>(sheets)
{
    protected override Result<FocusWorked> Work() => FocusSheet.Work(Input.Typed());

    protected override WorksheetFinding? FindingOf(FocusWorked worked) => worked.Finding;

    public sealed class InputModel
    {
        public LengthUnit Unit { get; set; }

        public double? Measured { get; set; }

        public double? Nominal { get; set; }

        public double? Shims { get; set; }

        public double? FocalLength { get; set; } = 50;

        public double? FNumber { get; set; } = 2;

        public double? Circle { get; set; } = Focus.CommonCircle;

        public double? SetMetres { get; set; }

        public FocusTyped Typed() => new(Unit, Measured, Nominal, Shims, FocalLength, FNumber, Circle, SetMetres);
    }
}
