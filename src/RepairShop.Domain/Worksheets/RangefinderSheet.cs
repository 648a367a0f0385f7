using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;

namespace RepairShop.Domain.Worksheets;

/// <summary>Units a distance scale is engraved in.</summary>
public enum DistanceUnit
{
    Metre,
    Foot,
}

/// <summary>What was typed about a rangefinder.</summary>
/// <param name="Unit">Of the distances, from the film.</param>
/// <param name="BaseLength">Between the two windows, mm.</param>
/// <param name="Lines">Targets and what the scale said; positive infinity for infinity; lines with both empty are left out.</param>
public sealed record RangefinderTyped(
    DistanceUnit Unit, double? FocalLength, double? FNumber, double? Circle, double? BaseLength, double? Magnification, IReadOnlyList<RangefinderLine> Lines);

public sealed record RangefinderLine(double? Target, double? Shown);

/// <summary>A rangefinder, worked out.</summary>
public sealed record RangefinderWorked(IReadOnlyList<RangefinderPoint> Points, DistanceUnit Unit, double BaseNeeded, double EffectiveBase, WorksheetFinding Finding);

/// <summary>One target.</summary>
/// <param name="Target">In the unit typed; positive infinity for infinity.</param>
/// <param name="Shown">What the scale said.</param>
/// <param name="AtFilm">How far the lens stands wrong, mm, with limits.</param>
/// <param name="EyeCanTell">What the eye can set at that distance, in the unit typed; null at infinity.</param>
public sealed record RangefinderPoint(double Target, double Shown, Gauge AtFilm, double? EyeCanTell);

public static class RangefinderSheet
{
    /// <summary>International foot, exactly.</summary>
    public const double MillimetresPerFoot = 304.8;

    public static double MillimetresIn(DistanceUnit unit) => unit == DistanceUnit.Foot ? MillimetresPerFoot : 1000;

    public static Result<RangefinderWorked> Work(RangefinderTyped typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var values = new SheetValues();
        var (lens, fNumber, circle) = (values.Lens(typed.FocalLength), values.FNumber(typed.FNumber), values.Circle(typed.Circle));
        var length = values.Needed(typed.BaseLength, "BaseLength", "Base", 1, 1000, "1 to 1000 mm");
        var magnification = values.Needed(typed.Magnification, "Magnification", "Magnification", 0.05, 10, "0.05 to 10");
        if (values.Refusal is { } refused)
            return refused;
        var points = new List<RangefinderPoint>();
        for (var i = 0; i < typed.Lines.Count; i++)
        {
            var (target, shown) = typed.Lines[i];
            if (target is null && shown is null)
                continue;
            var millimetres = MillimetresIn(typed.Unit);
            if (WhyNot(i, target, shown, 4 * lens / millimetres) is { } wrong)
                return wrong;
            double? Mm(double value) => double.IsInfinity(value) ? null : value * millimetres;
            points.Add(new(
                target!.Value, shown!.Value, Rangefinder.FilmError(lens, fNumber, Mm(shown.Value), Mm(target.Value), circle),
                Mm(target.Value) is { } distance ? Rangefinder.SettingError(distance, length, magnification) / millimetres : null));
        }

        if (points.Count == 0)
            return new NothingRead();
        return new RangefinderWorked(
            points, typed.Unit, Rangefinder.BaseNeeded(lens, fNumber, circle), length * magnification, Finding(points, typed.Unit, lens, fNumber));
    }

    private static Invalid? WhyNot(int line, double? target, double? shown, double nearest)
    {
        foreach (var (name, words, value) in new[] { ("Target", "Target", target), ("Shown", "What the scale shows", shown) })
        {
            if (value is null)
                return new ReadingHalfGiven($"Lines[{line}].{name}", "Target and what the scale shows");
            if (!(value >= nearest) || (value > 1e5 && !double.IsInfinity(value.Value)))
                return new SheetValueOutOfRange($"Lines[{line}].{name}", words, $"at least {SheetText.Number(nearest, "0.00")} (four focal lengths), or ∞");
        }

        return null;
    }

    private static WorksheetFinding Finding(List<RangefinderPoint> points, DistanceUnit unit, double lens, double fNumber)
    {
        // Judged by the share of its own limit, as limits widen a little up close.
        var worst = points.MaxBy(point => Math.Abs(point.AtFilm.Value) / point.AtFilm.High!.Value)!;
        var sign = unit == DistanceUnit.Foot ? "ft" : "m";
        var text = string.Join("; ", points.Select(point => $"target {Distance(point.Target, sign)} shown as {Distance(point.Shown, sign)}"))
            + $". At the film, against half the depth of focus of {SheetText.Number(lens)} mm at f/{SheetText.Number(fNumber)}.";
        return new("Rangefinder", $"Focus error at the film, target {Distance(worst.Target, sign)}", WorksheetFinding.Rounded(worst.AtFilm), text);
    }

    public static string Distance(double value, string sign) => double.IsInfinity(value) ? "∞" : $"{SheetText.Number(value)} {sign}";
}
