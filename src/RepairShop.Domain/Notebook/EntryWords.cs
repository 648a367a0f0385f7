using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Notebook;

/// <summary>The kinds of entries in words; the same on screen, paper and in files.</summary>
public static class EntryWords
{
    /// <summary>The order in which a page shows them.</summary>
    public static IReadOnlyList<EntryKind> Order { get; } =
        [EntryKind.Caution, EntryKind.Fault, EntryKind.Gauge, EntryKind.Tool, EntryKind.Torque, EntryKind.Lubricant];

    public static string Of(EntryKind kind) => kind switch
    {
        EntryKind.Fault => "usual fault",
        EntryKind.Gauge => "gauge",
        EntryKind.Tool => "tool",
        EntryKind.Torque => "torque",
        EntryKind.Lubricant => "lubricant",
        EntryKind.Caution => "caution",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
    };

    public static string Plural(EntryKind kind) => kind switch
    {
        EntryKind.Fault => "Usual faults",
        EntryKind.Gauge => "Gauges",
        EntryKind.Tool => "Tools needed",
        EntryKind.Torque => "Torque",
        EntryKind.Lubricant => "Lubricants",
        EntryKind.Caution => "Cautions",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
    };

    /// <summary>A usual caution by its name.</summary>
    public static string Of(Caution caution) => caution switch
    {
        Caution.FlammableSolvent => "flammable solvent",
        Caution.FlashCapacitor => "flash capacitor",
        Caution.MercuryCell => "mercury cell",
        Caution.ThoriatedGlass => "thoriated glass",
        Caution.SeleniumCell => "selenium cell",
        Caution.SpringUnderTension => "spring under tension",
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, null),
    };
}
