namespace RepairShop.Domain.StripDown;

/// <summary>Two things in one cell that look the same and must not be swapped.</summary>
public sealed record CellWarning(Guid TrayId, TrayCell Cell, IReadOnlyList<string> Things)
{
    public override string ToString() => $"{Cell} holds look-alikes that must not be swapped: {string.Join(" and ", Things)}. Give one of them a cell of its own.";
}

/// <summary>Finds cells whose contents could be swapped by mistake: at least one is marked as differing from a look-alike, and another
/// was held the same way or carries the same noun. Common practice; rather one warning too many.</summary>
public static class LookAlikes
{
    private const int ShortestNoun = 4;

    public static IReadOnlyList<CellWarning> In(IEnumerable<StripStep> steps)
    {
        ArgumentNullException.ThrowIfNull(steps);
        return [.. steps
            .Where(step => step is { TrayId: not null, Cell: not null } && step.Items.Any(lot => lot.Fate == ItemFate.StillOut))
            .GroupBy(step => (TrayId: step.TrayId!.Value, Cell: step.Cell!.Value))
            .Where(cell => cell.Any(one => cell.Any(other => other.Id != one.Id && Confusable(one, other))))
            .OrderBy(cell => cell.Key.Cell.Row).ThenBy(cell => cell.Key.Cell.Column)
            .Select(cell => new CellWarning(cell.Key.TrayId, cell.Key.Cell, [.. cell.Select(step => step.What)]))];
    }

    public static bool Confusable(StripStep one, StripStep other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        return (one.Remember | other.Remember).HasFlag(Remember.LookAlike)
            && (one.HeldBy == other.HeldBy || Nouns(one.What).Overlaps(Nouns(other.What)));
    }

    private static HashSet<string> Nouns(string what) =>
        what.Split([' ', ',', '-', '/'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(word => word.TrimEnd('s')).Where(word => word.Length >= ShortestNoun).ToHashSet(StringComparer.CurrentCultureIgnoreCase);
}
