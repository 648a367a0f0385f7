using System.Globalization;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Domain.Worksheets;

/// <summary>What was typed about a coupled shutter.</summary>
/// <param name="Value">The exposure value the rings are coupled at.</param>
/// <param name="Speeds">Marks of the speed ring, parted by blanks.</param>
/// <param name="Apertures">Marks of the aperture ring, parted by blanks.</param>
/// <param name="LimitStops">The workshop's own limit either way.</param>
/// <param name="Lines">What was seen at each speed while turning.</param>
public sealed record CouplingTyped(double? Value, string Speeds, string Apertures, double? LimitStops, IReadOnlyList<CouplingLine> Lines);

/// <summary>One speed while turning.</summary>
/// <param name="Speed">Its mark.</param>
/// <param name="Holds">The pair stands as it should.</param>
/// <param name="Read">The f-number the ring shows instead; null when it was not read.</param>
public sealed record CouplingLine(string Speed, bool Holds, double? Read);

/// <summary>A coupled shutter, worked out.</summary>
/// <param name="Finding">Null until something was seen.</param>
public sealed record CouplingWorked(double Value, IReadOnlyList<CouplingPoint> Points, double LimitStops, WorksheetFinding? Finding);

/// <summary>One pair and what was seen.</summary>
/// <param name="OffStops">How far it is off, stops; 0 where it was ticked; null where nothing was seen.</param>
public sealed record CouplingPoint(EvPair Pair, bool Holds, double? Read, double? OffStops, Verdict Verdict);

public static class CouplingSheet
{
    public const string UsualApertures = "2.8 4 5.6 8 11 16 22";

    public static Result<CouplingWorked> Work(CouplingTyped typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var values = new SheetValues();
        var value = values.Needed(typed.Value, "Value", "Exposure value", -10, 25, "−10 to 25");
        var limit = values.Needed(typed.LimitStops, "LimitStops", "Limit", 0.01, 5, "0.01 to 5 stops");
        var (marks, unread) = MarkedSpeed.ParseDial(typed.Speeds);
        if (unread is not null)
            values.Refuse(marks.Count == 0 && string.IsNullOrWhiteSpace(typed.Speeds)
                ? new SheetValueMissing("Speeds", "Speed ring")
                : new SpeedNotRead("Speeds", unread.Text));
        var apertures = Apertures(values, typed.Apertures);
        if (values.Refusal is { } refused)
            return refused;
        var pairs = EvCoupling.PairsAt(value, marks, apertures, SpeedSeries.RuleFor(marks, ReferenceRule.TrueBinary));
        if (pairs.Count == 0)
            return new NoPairHolds(SheetText.Number(value));
        var points = new List<CouplingPoint>();
        foreach (var pair in pairs)
        {
            var at = typed.Lines.ToList().FindIndex(line => line.Speed == pair.Speed.Text);
            if (at >= 0 && typed.Lines[at].Read is { } read && !(read is >= 0.5 and <= 128))
                return new SheetValueOutOfRange($"Lines[{at}].Read", "The f-number read", "an f-number between 0.5 and 128");
            points.Add(Point(value, pair, at < 0 ? null : typed.Lines[at], limit));
        }

        return new CouplingWorked(value, points, limit, Finding(points, value, limit));
    }

    private static CouplingPoint Point(double value, EvPair pair, CouplingLine? line, double limit)
    {
        double? off = line?.Read is { } read ? EvCoupling.OffStops(value, pair, read) : line is { Holds: true } ? 0 : null;
        return new(pair, line?.Holds ?? false, line?.Read, off, off is { } stops ? DecisionRule.JudgeSimply(Math.Round(stops, 3), -limit, limit) : Verdict.NotJudged);
    }

    private static WorksheetFinding? Finding(List<CouplingPoint> points, double value, double limit)
    {
        var seen = points.Where(point => point.OffStops is not null).ToList();
        if (seen.Count == 0)
            return null;
        var worst = seen.MaxBy(point => Math.Abs(point.OffStops!.Value))!;
        var off = seen.Where(point => point.Read is not null)
            .Select(point => $"{point.Pair.Speed.Text} stands at f/{SheetText.Number(point.Read!.Value)} for f/{SheetText.Number(point.Pair.Mark ?? point.Pair.FNumber, "0.#")} ({SheetText.Stops(point.OffStops!.Value)} stop)");
        var text = string.Join("; ", off.Prepend($"Coupled at EV {SheetText.Number(value)}: {seen.Count} of {points.Count} pairs looked at, {seen.Count(point => point.Verdict == Verdict.Within)} hold")) + ".";
        return new("Speed and aperture coupling", "Pair furthest off", new Gauge(Math.Round(worst.OffStops!.Value, 3), "stop", -limit, limit), text);
    }

    private static List<double> Apertures(SheetValues values, string text)
    {
        var ring = new List<double>();
        foreach (var word in text.Split([' ', ';', '\t', '\r', '\n', '\u00A0', '\u202F'], StringSplitOptions.RemoveEmptyEntries))
        {
            var plain = word.Replace("f/", "", StringComparison.OrdinalIgnoreCase).Replace(',', '.');
            if (!double.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mark) || mark is < 0.5 or > 128)
            {
                values.Refuse(new ApertureNotRead("Apertures", word));
                return [];
            }

            if (!ring.Contains(mark))
                ring.Add(mark);
        }

        if (ring.Count == 0)
            values.Refuse(new SheetValueMissing("Apertures", "Aperture ring"));
        return ring;
    }
}
