namespace RepairShop.Domain.Paperwork;

/// <summary>Labels for the trays of one repair, one 62 × 29 mm label for each.</summary>
public sealed record TrayLabelFacts : RepairPaperFacts
{
    /// <summary>The strip-down's page, behind the QR code.</summary>
    public required string StripDownUrl { get; init; }

    public IReadOnlyList<TrayFacts> Trays { get; init; } = [];
}

/// <summary>One tray as its label shows it.</summary>
/// <param name="EasilyLost">Cells that held something easily lost when the label was made.</param>
public sealed record TrayFacts(string Name, int Rows, int Columns, IReadOnlyList<string> EasilyLost);
