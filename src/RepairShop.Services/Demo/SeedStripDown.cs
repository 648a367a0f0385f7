using RepairShop.Domain.Parts;
using RepairShop.Domain.StripDown;

namespace RepairShop.Services.Demo;

/// <summary>One strip-down of <c>seed/strip-downs.json</c>, for the repair of a camera that was booked so many days ago.</summary>
internal sealed record SeedStripDown(string Camera, int DaysAgo, SeedTray[] Trays, SeedStep[] Steps);

internal sealed record SeedTray(string Name, int Rows, int Columns);

/// <summary>One step, how it went through the wash, and what became of it; still out when <see cref="Fate"/> says so.</summary>
internal sealed record SeedStep
{
    public required string What { get; init; }
    public int Count { get; init; } = 1;
    public HeldBy Held { get; init; }
    public Remember[] Remember { get; init; } = [];
    public string Note { get; init; } = "";
    public string ShimPlace { get; init; } = "";
    public int ShimCount { get; init; }
    public double? ShimMillimetres { get; init; }
    public string Cell { get; init; } = "";
    public string? Photo { get; init; }
    public string Cleaned { get; init; } = "";
    public Lubrication Lubrication { get; init; }
    public string Lubricant { get; init; } = "";
    public string LubricatedWhere { get; init; } = "";
    public ItemFate Fate { get; init; }
    public string FateNote { get; init; } = "";
    public string ReplacedBy { get; init; } = "";
    public Provenance? Provenance { get; init; }
    public bool OldGoesBack { get; init; }
}
