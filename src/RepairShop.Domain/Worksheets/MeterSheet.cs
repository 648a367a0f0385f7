using System.Globalization;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Exposure;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Domain.Worksheets;

/// <summary>How the light a meter is shown is known.</summary>
public enum MeterLight
{
    ExposureValue,
    Luminance,
    Illuminance,
}

/// <summary>What was typed about a meter.</summary>
/// <param name="Constant">K in cd·s/m² with luminance, C in lx·s with illuminance; not asked for with exposure values.</param>
/// <param name="LimitStops">The workshop's own limit either way.</param>
/// <param name="Lines">Light as <paramref name="Light"/> says, and the reading: an EV at the film speed set, or aperture and speed.</param>
public sealed record MeterTyped(MeterLight Light, double? FilmSpeed, double? Constant, double? LimitStops, IReadOnlyList<MeterLine> Lines);

public sealed record MeterLine(double? Light, string Reading);

/// <summary>A meter, worked out.</summary>
public sealed record MeterWorked(MeterCheck Check, double LimitStops, WorksheetFinding Finding);

public static class MeterSheet
{
    public static double UsualConstant(MeterLight light) =>
        light == MeterLight.Illuminance ? ExposureValue.IncidentConstant : ExposureValue.ReflectedConstant;

    public static Result<MeterWorked> Work(MeterTyped typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var values = new SheetValues();
        var speed = values.Needed(typed.FilmSpeed, "FilmSpeed", "Film speed", 0.1, 1e6, "an ISO speed such as 100");
        var constant = typed.Light == MeterLight.ExposureValue
            ? 1
            : values.Needed(typed.Constant ?? UsualConstant(typed.Light), "Constant", "Calibration constant", 1, 1000, "1 to 1000");
        var limit = values.Needed(typed.LimitStops, "LimitStops", "Limit", 0.01, 5, "0.01 to 5 stops");
        if (values.Refusal is { } refused)
            return refused;
        var points = new List<MeterPoint>();
        for (var i = 0; i < typed.Lines.Count; i++)
        {
            var line = typed.Lines[i];
            if (line.Light is null && string.IsNullOrWhiteSpace(line.Reading))
                continue;
            if (line.Light is not { } light || string.IsNullOrWhiteSpace(line.Reading))
                return new ReadingHalfGiven($"Lines[{i}].{(line.Light is null ? "Light" : "Reading")}", "Light and reading");
            if (LightValue(typed.Light, light, speed, constant) is not { } there)
                return new SheetValueOutOfRange($"Lines[{i}].Light", "Light", typed.Light == MeterLight.ExposureValue ? "an EV between −20 and 30" : "more than 0");
            if (ReadingValue(line.Reading) is not { } read)
                return new MeterReadingNotRead($"Lines[{i}].Reading", line.Reading.Trim());
            points.Add(new(there, read));
        }

        return points.Count == 0 ? new NothingRead() : Worked(MeterCheck.Of(points), limit, typed, speed, constant);
    }

    /// <summary>"12.3", "EV 12,3", "8 1/125" or "f/8 1/125" as an exposure value; null when it is none.</summary>
    public static double? ReadingValue(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var words = text.Replace("EV", " ", StringComparison.OrdinalIgnoreCase).Replace("f/", " ", StringComparison.OrdinalIgnoreCase)
            .Split((char[]?)null, 2, StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0 || Number(words[0]) is not { } first)
            return null;
        if (words.Length == 1)
            return Math.Abs(first) <= 30 ? first : null;
        return first is > 0.1 and < 1000 && MarkedSpeed.Parse(words[1]).Mark?.ReferenceSeconds(ReferenceRule.TrueBinary) is { } seconds
            ? ExposureValue.Ev(FNumber.TrueValue(first), seconds)
            : null;
    }

    private static double? Number(string word) =>
        double.TryParse(word.Replace(',', '.').Replace('−', '-'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value)
            ? value
            : null;

    private static double? LightValue(MeterLight kind, double light, double speed, double constant) => kind switch
    {
        MeterLight.ExposureValue => light is >= -20 and <= 30 ? light : null,
        _ when !(light > 0 && light <= 1e8) => null,
        MeterLight.Luminance => ExposureValue.FromLuminance(light, speed, constant),
        _ => ExposureValue.FromIlluminance(light, speed, constant),
    };

    private static MeterWorked Worked(MeterCheck check, double limit, MeterTyped typed, double speed, double constant)
    {
        var gauge = new Gauge(Math.Round(check.WorstError, 3), "stop", -limit, limit);
        var held = typed.Light switch
        {
            MeterLight.Luminance => $", K {SheetText.Number(constant)} cd·s/m²",
            MeterLight.Illuminance => $", C {SheetText.Number(constant)} lx·s",
            _ => "",
        };
        var text = $"ISO {SheetText.Number(speed)}{held}. "
            + string.Join("; ", check.Points.Select(point => $"EV {SheetText.Number(point.Light, "0.0#")} read {SheetText.Number(point.Reading, "0.0#")}"))
            + $". Mean error {SheetText.Stops(check.MeanError)} stop"
            + (check.Linearity is { } bend ? $", off a straight line by {SheetText.Number(bend, "0.00")}." : ".");
        return new MeterWorked(check, limit, new("Light meter", "Largest meter error", gauge, text));
    }
}
