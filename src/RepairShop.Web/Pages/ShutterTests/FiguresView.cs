using RepairShop.Domain.Checks;
using RepairShop.Domain.ShutterTests;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Web.Pages.ShutterTests;

/// <summary>The table of figures, on the page and alone while typing.</summary>
public sealed record FiguresView(Phase Phase, IReadOnlyList<SpeedRow> Rows, IReadOnlyList<ReadingsNotRead> Refused)
{
    public bool HasBefore => Phase == Phase.AfterService && Rows.Any(row => row.Before is not null);
}
