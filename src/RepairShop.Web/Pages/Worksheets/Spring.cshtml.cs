using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class SpringModel(WorksheetService sheets) : SheetModel<SpringModel.InputModel, SpringWorked>(sheets)
{
    protected override Result<SpringWorked> Work() => SpringSheet.Work(Input.Typed());

    protected override WorksheetFinding? FindingOf(SpringWorked worked) => worked.Finding;

    public sealed class InputModel
    {
        [StringLength(20)]
        public string? Place { get; set; }

        public bool Anticlockwise { get; set; }

        [StringLength(20)]
        public string? AsNew { get; set; } = "2:00";

        [StringLength(20)]
        public string? Serviceable { get; set; } = "3:00";

        [StringLength(20)]
        public string? Tired { get; set; } = "4:00";

        public SpringTyped Typed() => new(Place ?? "", Anticlockwise, AsNew ?? "", Serviceable ?? "", Tired ?? "");
    }
}
