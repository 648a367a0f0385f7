using System.ComponentModel.DataAnnotations;
using RepairShop.Services.StripDown;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>The form of one tray, new or old.</summary>
public sealed class TrayInput
{
    [Display(Name = "Tray’s name"), StringLength(30)]
    public string Name { get; set; } = "1";

    public int Rows { get; set; } = 4;

    public int Columns { get; set; } = 6;

    public uint Version { get; set; }

    public Guid Once { get; set; } = Guid.CreateVersion7();

    public TrayTyped Typed() => new(Name, Rows, Columns, Version);
}
