namespace RepairShop.Services.Database;

/// <summary>One page of a list that is walked by key, so that page 8,000 costs what page 1 costs.</summary>
/// <param name="Lines"></param>
/// <param name="Next">Where the next page begins; null on the last.</param>
/// <param name="Instead">What was looked for instead of a word that stands nowhere; empty when nothing was put right.</param>
public sealed record ListPage<T>(IReadOnlyList<T> Lines, string? Next, IReadOnlyList<string> Instead);

internal static class ListPages
{
    public const int Size = 30;

    /// <summary>Takes one line more than a page holds as the sign that there is a next one.</summary>
    public static ListPage<T> Of<T>(List<T> lines, Func<T, string> key, IReadOnlyList<string> instead)
    {
        var more = lines.Count > Size;
        if (more)
            lines.RemoveRange(Size, lines.Count - Size);
        return new ListPage<T>(lines, more ? key(lines[^1]) : null, instead);
    }
}
