namespace RepairShop.Documents.Layout;

/// <summary>A sheet's size and margins in points.</summary>
internal sealed record SheetSize(float Width, float Height, float Side, float Top, float Bottom)
{
    private const float Millimetre = 72 / 25.4f;

    public static readonly SheetSize A4 = new(210 * Millimetre, 297 * Millimetre, 51, 42, 57);
    public static readonly SheetSize Letter = new(612, 792, 54, 42, 57);

    /// <summary>62 × 29 mm, the common tape for address labels.</summary>
    public static readonly SheetSize Label = new(62 * Millimetre, 29 * Millimetre, 6, 6, 6);

    /// <summary>Letter where paper is cut that way, A4 elsewhere (common practice).</summary>
    public static SheetSize For(string country) => country.ToUpperInvariant() is "US" or "CA" or "MX" ? Letter : A4;

    public float Inner => Width - 2 * Side;
}

/// <summary>Lays blocks down the pages.</summary>
internal static class Pager
{
    /// <param name="size">The sheet.</param>
    /// <param name="blocks">From top to bottom.</param>
    /// <param name="runningHead">What the second page and those after it begin with.</param>
    /// <param name="foot">Draws the foot of page x of y.</param>
    public static List<Ink> Lay(SheetSize size, IReadOnlyList<Block> blocks, Block runningHead, Action<Ink, int, int> foot)
    {
        var pages = new List<Ink> { new() };
        var y = size.Top;
        var bottom = size.Height - size.Bottom;
        var fresh = true;
        var waiting = new LinkedList<Block>(blocks);
        while (waiting.First is { } first)
        {
            var block = first.Value;
            waiting.RemoveFirst();
            if (fresh && pages.Count > 1 && block is Spacer or Rule)
                continue;
            var height = block.Height(size.Inner);
            if (y + NeededHere(block, waiting, size.Inner) <= bottom && y + height <= bottom)
            {
                block.Draw(pages[^1], size.Side, y, size.Inner);
                (y, fresh) = (y + height, false);
                continue;
            }
            var (head, rest) = block.KeepWithNext ? (null, block) : block.Split(size.Inner, bottom - y);
            head?.Draw(pages[^1], size.Side, y, size.Inner);
            if (head is null && fresh)
            {
                // Higher than a whole page and not to be cut: drawn over the edge rather than lost in an endless loop.
                block.Draw(pages[^1], size.Side, y, size.Inner);
                rest = null;
            }
            if (rest is null)
            {
                (y, fresh) = (bottom, false);
                continue;
            }
            waiting.AddFirst(rest);
            pages.Add(new Ink());
            runningHead.Draw(pages[^1], size.Side, size.Top, size.Inner);
            (y, fresh) = (size.Top + runningHead.Height(size.Inner), true);
        }
        for (var i = 0; i < pages.Count; i++)
            foot(pages[i], i + 1, pages.Count);
        return pages;
    }

    /// <summary>A heading needs room for itself and the beginning of what follows.</summary>
    private static float NeededHere(Block block, LinkedList<Block> waiting, float width)
    {
        var needed = block.Height(width);
        for (var next = waiting.First; block.KeepWithNext && next is not null; next = next.Next)
        {
            block = next.Value;
            needed += block.KeepWithNext ? block.Height(width) : block.LeastHeight(width);
        }
        return needed;
    }
}
