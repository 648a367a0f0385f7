namespace RepairShop.Documents.Layout;

/// <summary>Blocks one under the other. Together keeps them on one page.</summary>
internal sealed class Stack(IReadOnlyList<Block> blocks, float gap = 0, bool together = false) : Block
{
    public override float NaturalWidth => blocks.Count == 0 ? 0 : blocks.Max(block => block.NaturalWidth);

    public override float Baseline(float width) => blocks.Count == 0 ? 0 : blocks[0].Baseline(width);

    public override float Height(float width) => blocks.Sum(block => block.Height(width)) + gap * Math.Max(0, blocks.Count - 1);

    public override float LeastHeight(float width)
    {
        if (together || blocks.Count == 0)
            return Height(width);
        var height = 0f;
        var i = 0;
        for (; i < blocks.Count - 1 && blocks[i].KeepWithNext; i++)
            height += blocks[i].Height(width) + gap;
        return height + blocks[i].LeastHeight(width);
    }

    public override void Draw(Ink ink, float x, float y, float width)
    {
        foreach (var block in blocks)
        {
            block.Draw(ink, x, y, width);
            y += block.Height(width) + gap;
        }
    }

    public override (Block? Head, Block? Tail) Split(float width, float height)
    {
        if (Height(width) <= height)
            return (this, null);
        if (together)
            return (null, this);
        var head = new List<Block>();
        for (var i = 0; i < blocks.Count; i++)
        {
            var own = blocks[i].Height(width);
            if (own <= height)
            {
                head.Add(blocks[i]);
                height -= own + gap;
                continue;
            }
            var (fits, rest) = blocks[i].Split(width, height);
            if (fits is not null)
                head.Add(fits);
            var left = new List<Block>();
            while (fits is null && head.Count > 0 && head[^1].KeepWithNext)
            {
                left.Insert(0, head[^1]);
                head.RemoveAt(head.Count - 1);
            }
            if (rest is not null)
                left.Add(rest);
            left.AddRange(blocks.Skip(i + 1));
            return head.Count == 0 ? (null, this) : (new Stack(head, gap), new Stack(left, gap));
        }
        return (this, null);
    }
}

/// <summary>Blocks side by side; a share of null takes the width given.</summary>
internal sealed class Columns(IReadOnlyList<(Block Block, float Share)> columns, float gutter) : Block
{
    public override float Height(float width) => columns.Max(column => column.Block.Height(WidthOf(column.Share, width)));

    public override void Draw(Ink ink, float x, float y, float width)
    {
        foreach (var (block, share) in columns)
        {
            block.Draw(ink, x, y, WidthOf(share, width));
            x += WidthOf(share, width) + gutter;
        }
    }

    private float WidthOf(float share, float width) => (width - gutter * (columns.Count - 1)) * share / columns.Sum(column => column.Share);
}

/// <summary>A ledger section: its name in the margin, what it says beside it; the name stays with the first part when cut.</summary>
internal sealed class Section(Block? name, Block body, float margin, float gutter) : Block
{
    private float Inner(float width) => width - margin - gutter;

    public override float Height(float width) => Math.Max(name?.Height(margin) ?? 0, body.Height(Inner(width)) + Drop(width));

    /// <summary>How far the body moves down for its first line to stand level with its name.</summary>
    private float Drop(float width) =>
        name is not null && body.Baseline(Inner(width)) is > 0 and var own ? Math.Max(0, name.Baseline(margin) - own) : 0;

    public override float LeastHeight(float width) => Math.Max(name?.Height(margin) ?? 0, body.LeastHeight(Inner(width)) + Drop(width));

    public override void Draw(Ink ink, float x, float y, float width)
    {
        name?.Draw(ink, x, y, margin);
        body.Draw(ink, x + margin + gutter, y + Drop(width), Inner(width));
    }

    public override (Block? Head, Block? Tail) Split(float width, float height)
    {
        if (name is not null && name.Height(margin) > height)
            return (null, this);
        var (head, rest) = body.Split(Inner(width), height - Drop(width));
        return (head is null ? null : new Section(name, head, margin, gutter), rest is null ? null : new Section(null, rest, margin, gutter));
    }
}
