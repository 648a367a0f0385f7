namespace RepairShop.Documents.Charts;

/// <summary>
/// A chart as a list of things to draw, made by pure code and shown by two back ends: the PDF canvas and SVG. Units are points
/// on paper and user units on screen. The look is named, not given: colours belong to the paper's ink or the page's theme.
/// </summary>
/// <param name="Title">What it shows, for those who cannot see it.</param>
/// <param name="Description">The figures in words.</param>
public sealed record ChartDrawing(double Width, double Height, string Title, string Description, IReadOnlyList<ChartMark> Marks)
{
    /// <summary>Where a chart over time may be stretched by a script; null for the others.</summary>
    public ChartSpan? Span { get; init; }
}

/// <summary>
/// Between these two places stand these two times; what lies outside them stays where it is. New ticks are written with the signs given, so that
/// they look like those that stood there.
/// </summary>
public sealed record ChartSpan(double Left, double Right, double FromMilliseconds, double ToMilliseconds, string Minus, string DecimalSign);

/// <summary>What a mark is, and with it how each back end draws it.</summary>
public enum ChartLook
{
    Band,
    Grid,
    Zero,
    Limit,
    Before,
    BeforeLink,
    After,
    AfterLink,
    Label,
    Note,
    Tick,
    TickLabel,
    Opening,
    Closing,
    Crossing,
    BeforeTrace,
    AfterTrace,
}

/// <summary>One thing to draw.</summary>
public abstract record ChartMark(ChartLook Look);

public sealed record ChartRect(ChartLook Look, double X, double Y, double Width, double Height) : ChartMark(Look);

public sealed record ChartLine(ChartLook Look, double X1, double Y1, double X2, double Y2) : ChartMark(Look);

/// <summary>A line through many points.</summary>
public sealed record ChartPath(ChartLook Look, IReadOnlyList<(double X, double Y)> Points) : ChartMark(Look);

/// <summary>A round mark: hollow before, filled after.</summary>
public sealed record ChartDot(ChartLook Look, double X, double Y, double Radius) : ChartMark(Look);

/// <summary>Text with its baseline at Y.</summary>
public sealed record ChartText(ChartLook Look, double X, double Y, string Text, ChartAnchor Anchor) : ChartMark(Look);

public enum ChartAnchor
{
    Start,
    Middle,
    End,
}
