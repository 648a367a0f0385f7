using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;

namespace RepairShop.Web.Pages.Tools;

/// <summary>
/// Where everything of a spanner's drawing stands, in millimetres of paper: the end with the pins, and the section through the pins, beside it or below.
/// Full size where it fits on A4 between its margins, else half or a fifth.
/// </summary>
public sealed class SpannerDrawing
{
    /// <summary>A4 with 16 mm of margin.</summary>
    public const double PaperWidth = 178;

    private const double PaperHeight = 200, Edge = 26, Between = 30, Below = 26;

    public SpannerDrawing(RingSpanner spanner, SpannerMount? mount, LengthUnit unit)
    {
        (Spanner, Mount, Unit) = (spanner, mount, unit);
        var (scale, beside) = Layouts.First(one => Fits(one.Scale, one.Beside) || one == Layouts[^1]);
        Scale = scale;
        var reach = Reach * scale;
        End = (Edge + reach, Edge + reach);
        Section = beside ? (End.X + reach + Between, End.Y) : (Edge, End.Y + reach + Below + Edge + Half(spanner.OuterDiameter));
        Width = Math.Max(PaperWidth, Section.X + (spanner.Depth + spanner.PinHeight) * scale + Edge);
        Height = Section.Y + Math.Max(beside ? reach : 0, Half(spanner.OuterDiameter)) + Below;
        Dimensions = [.. AllDimensions()];
    }

    public RingSpanner Spanner { get; }

    /// <summary>Drawn dashed round the end; null where only the tool is wanted.</summary>
    public SpannerMount? Mount { get; }

    public LengthUnit Unit { get; }

    /// <summary>Millimetres of paper for each of the tool.</summary>
    public double Scale { get; }

    /// <summary>"1:1", "1:2".</summary>
    public string ScaleWords => $"1:{Math.Round(1 / Scale)}";

    /// <summary>Middle of the end view.</summary>
    public (double X, double Y) End { get; }

    /// <summary>Left end of the section's axis; the pins are at its right.</summary>
    public (double X, double Y) Section { get; }

    public double Width { get; }

    public double Height { get; }

    public IReadOnlyList<Dimension> Dimensions { get; }

    /// <summary>Half the width across the cut-away sides where there are any.</summary>
    public double? Flat => Spanner.CutAwayWidth is { } width && width < Spanner.OuterDiameter ? width * Scale / 2 : null;

    public double Half(double length) => length * Scale / 2;

    /// <summary>Half a chord of a circle at the height of the cut-away sides; null where the circle lies within them.</summary>
    public double? HalfChord(double diameter) =>
        Flat is { } flat && Half(diameter) is var radius && radius > flat ? Math.Sqrt(radius * radius - flat * flat) : null;

    /// <summary>Turn of each pin, degrees; the first lies on the wide way of the tube.</summary>
    public IEnumerable<double> PinTurns => Enumerable.Range(0, Spanner.Pins).Select(pin => 360.0 * pin / Spanner.Pins);

    private static readonly (double Scale, bool Beside)[] Layouts = [(1, true), (1, false), (0.5, true), (0.5, false), (0.2, true), (0.2, false)];

    /// <summary>Half of the widest thing drawn at the end.</summary>
    private double Reach => Math.Max(Spanner.OuterDiameter, Math.Max(Mount?.RecessDiameter ?? 0, Mount?.GateWidth ?? 0)) / 2;

    private bool Fits(double scale, bool beside)
    {
        var (reach, length) = (2 * Reach * scale, (Spanner.Depth + Spanner.PinHeight) * scale);
        return beside
            ? Edge + reach + Between + length + Edge <= PaperWidth
            : Math.Max(reach, length) + 2 * Edge <= PaperWidth && reach + Below + 2 * Edge + Spanner.OuterDiameter * scale + Below <= PaperHeight;
    }

    private IEnumerable<Dimension> AllDimensions()
    {
        var (ex, ey) = End;
        var (r, reach) = (Half(Spanner.OuterDiameter), Reach * Scale);
        yield return Across(ex, ey + reach + 9, Half(Spanner.InnerDiameter), ey, $"Ø {Text(Spanner.InnerDiameter)}");
        yield return Across(ex, ey + reach + 18, r, ey, $"Ø {Text(Spanner.OuterDiameter)}");
        yield return Across(ex, ey - reach - 9, Half(Spanner.PinCircle), ey, $"pins on Ø {Text(Spanner.PinCircle)}");
        if (Flat is { } flat)
            yield return new(ex - reach - 9, ey - flat, ex - reach - 9, ey + flat, Text(Spanner.NarrowWidth), [(ex - (HalfChord(Spanner.OuterDiameter) ?? 0), ey - flat), (ex - (HalfChord(Spanner.OuterDiameter) ?? 0), ey + flat)]);
        var wide = Half(Spanner.PinWidth);
        yield return new(ex + reach + 7, ey - wide, ex + reach + 7, ey + wide, $"pin {Text(Spanner.PinWidth)}", [(ex + r, ey - wide), (ex + r, ey + wide)]);
        var (sx, sy) = Section;
        var (deep, pin) = (Spanner.Depth * Scale, Spanner.PinHeight * Scale);
        yield return new(sx, sy + r + 9, sx + deep, sy + r + 9, Text(Spanner.Depth), [(sx, sy + r), (sx + deep, sy + r)]);
        yield return new(sx + deep, sy - r - 9, sx + deep + pin, sy - r - 9, $"pin {Text(Spanner.PinHeight)}", [(sx + deep, sy - r), (sx + deep + pin, sy - Half(Spanner.PinCircle))]);
    }

    private static Dimension Across(double x, double y, double half, double from, string text) =>
        new(x - half, y, x + half, y, text, [(x - half, from), (x + half, from)]);

    private string Text(double millimetres) => ToolWords.Figure(millimetres, Unit);
}

/// <summary>A dimension line with its text, and the points its two thin lines come from.</summary>
public sealed record Dimension(double X1, double Y1, double X2, double Y2, string Text, IReadOnlyList<(double X, double Y)> From)
{
    public bool IsUpright => X1 == X2;

    public double Length => Math.Abs(IsUpright ? Y2 - Y1 : X2 - X1);
}
