namespace RepairShop.Domain.StripDown;

/// <summary>Places in an order that can be inserted into: ranks with room between them, so that neither inserting nor moving
/// touches any other step until the room between two is used up.</summary>
public static class StripOrder
{
    public const long Gap = 1L << 20;

    /// <summary>The rank for a place.</summary>
    /// <param name="ranks">Of the steps as they stand, rising.</param>
    /// <param name="index">How many steps are to come before it.</param>
    /// <returns>Null when there is no room left: <see cref="Spread"/> the steps first.</returns>
    public static long? At(IReadOnlyList<long> ranks, int index)
    {
        ArgumentNullException.ThrowIfNull(ranks);
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(index, ranks.Count);
        if (index == ranks.Count)
            return ranks.Count == 0 ? Gap : ranks[^1] + Gap;
        var before = index == 0 ? ranks[0] - (2 * Gap) : ranks[index - 1];
        var between = before + ((ranks[index] - before) / 2);
        return between > before && between < ranks[index] ? between : null;
    }

    /// <summary>Ranks for so many steps with even room between them.</summary>
    public static IReadOnlyList<long> Spread(int count) => [.. Enumerable.Range(1, count).Select(place => place * Gap)];
}
