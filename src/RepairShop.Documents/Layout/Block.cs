namespace RepairShop.Documents.Layout;

/// <summary>A piece of a page: says how high it is at a width, draws itself, and may be cut where a page ends.</summary>
internal abstract class Block
{
    /// <summary>True for a heading: it moves to the next page rather than stand alone at the foot.</summary>
    public bool KeepWithNext { get; init; }

    public abstract float Height(float width);

    public abstract void Draw(Ink ink, float x, float y, float width);

    /// <summary>The width it takes on one line.</summary>
    public virtual float NaturalWidth => 0;

    /// <summary>Where its first line of text stands, so that type of two sizes in one row shares a line; 0 for what has no text.</summary>
    public virtual float Baseline(float width) => 0;

    /// <summary>What must fit at the foot of a page for the block to start there.</summary>
    public virtual float LeastHeight(float width) => Height(width);

    /// <summary>What fits into the height, and the rest; no head when nothing sensible fits.</summary>
    public virtual (Block? Head, Block? Tail) Split(float width, float height) => (null, this);
}

/// <summary>Empty height. Gone at the top of a page.</summary>
internal sealed class Spacer(float height) : Block
{
    public override float Height(float width) => height;

    public override void Draw(Ink ink, float x, float y, float width)
    {
    }
}

/// <summary>A line across. Gone at the top of a page, where the running head has one.</summary>
internal sealed class Rule(uint color, float thickness) : Block
{
    public override float Height(float width) => thickness;

    public override void Draw(Ink ink, float x, float y, float width) => ink.Line(x, y + thickness / 2, x + width, y + thickness / 2, color, thickness);
}

/// <summary>A JPEG, as wide as it may be but not above the greatest height.</summary>
internal sealed class ImageBlock(byte[] jpeg, int pixelWidth, int pixelHeight, float greatestHeight) : Block
{
    public override float Height(float width) => Math.Min(greatestHeight, width * pixelHeight / pixelWidth);

    public override void Draw(Ink ink, float x, float y, float width)
    {
        var height = Height(width);
        ink.Image(jpeg, x, y, height * pixelWidth / pixelHeight, height);
    }
}

/// <summary>A small square to tick by hand.</summary>
internal sealed class TickBox(uint color, bool ticked = false) : Block
{
    private const float Size = 8;

    public override float NaturalWidth => Size;

    public override float Baseline(float width) => Size + 2;

    public override float Height(float width) => Size + 4;

    public override void Draw(Ink ink, float x, float y, float width)
    {
        ink.Box(x, y + 2.5f, Size, color, 0.7f);
        if (!ticked)
            return;
        ink.Line(x + 1.6f, y + 6.6f, x + 3.4f, y + 8.6f, color, 1);
        ink.Line(x + 3.4f, y + 8.6f, x + 6.6f, y + 4.2f, color, 1);
    }
}

/// <summary>Draws nothing but a line to write on.</summary>
internal sealed class WritingLine(float height, uint color) : Block
{
    public override float Height(float width) => height;

    public override void Draw(Ink ink, float x, float y, float width) => ink.Line(x, y + height - 2, x + width, y + height - 2, color, 0.5f);
}
