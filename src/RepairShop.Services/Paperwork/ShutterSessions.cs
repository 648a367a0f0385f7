using System.Globalization;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.Shop;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Services.Paperwork;

/// <summary>The shutter tests of a repair as its papers show them, before and after side by side.</summary>
internal sealed record ShutterSessions
{
    public required string Method { get; init; }
    public ShutterSessionFacts? AsReceived { get; init; }
    public ShutterSessionFacts? AfterService { get; init; }
    public string? Sampling { get; init; }
    public string? ReferenceRule { get; init; }
    public string? Limits { get; init; }
    public string? DecisionRule { get; init; }
    public IReadOnlyList<ShutterRowFacts> Rows { get; init; } = [];

    /// <param name="tests">With their readings; the last of each phase counts.</param>
    /// <param name="camera">Its dial decides the order of the rows and whether old marks are read literally.</param>
    /// <param name="shop"></param>
    /// <param name="names">Who measured, by account.</param>
    public static ShutterSessions Of(
        IReadOnlyList<ShutterTest> tests, Camera camera, Domain.Shop.ShopSettings shop, IReadOnlyDictionary<Guid, string> names)
    {
        var before = Last(tests, Phase.AsReceived);
        var after = Last(tests, Phase.AfterService);
        if ((after ?? before) is not { } rules)
            return new ShutterSessions { Method = "Function checks by hand and eye; no exposure time was measured." };
        var (old, now) = (Figures(before, camera), Figures(after, camera));
        var marks = Marks(camera).Concat(old.Keys).Concat(now.Keys).Distinct().Where(mark => old.ContainsKey(mark) || now.ContainsKey(mark));
        return new ShutterSessions
        {
            Method = MethodWords([before, after]),
            AsReceived = Session(before, shop, names),
            AfterService = Session(after, shop, names),
            Sampling = Sample(old.Values.Concat(now.Values).Select(one => one.Figures)),
            ReferenceRule = RuleOf(rules, camera) == Measurement.ShutterTests.ReferenceRule.LiteralMark
                ? "Held against the marks as engraved: 1/125 is 8 ms."
                : "Held against the true binary times behind the marks: 1/125 stands for 1/128 s, 7.81 ms.",
            Limits = string.Create(CultureInfo.CurrentCulture,
                $"±{rules.SlowLimitStops:0.##} stop to {MarkText(rules.LimitBoundarySeconds)}, ±{rules.FastLimitStops:0.##} stop faster. {rules.LimitProvenance}"),
            DecisionRule = "Within and outside are said only where the whole 95 % interval lies on one side of the limit; in between it is “not proven”.",
            Rows = [.. marks.Select(mark => Row(mark, In(old, mark), In(now, mark)))],
        };
    }

    public static LimitVerdict? Of(Verdict verdict) => verdict switch
    {
        Verdict.Within => LimitVerdict.Within,
        Verdict.WithinNotProven => LimitVerdict.WithinNotProven,
        Verdict.OutsideNotProven => LimitVerdict.OutsideNotProven,
        Verdict.Outside => LimitVerdict.Outside,
        _ => null,
    };

    private const string TypedMethod = "Each exposure time was read on the instrument named below and typed in as shown; the figures are the mean of the readings "
        + "of one marked speed. The uncertainty is that of the mean at 95 % (Student's t), with the instrument's resolution where it is known; "
        + "the camera's own scatter is part of it.";

    private const string RecordedMethod = "A lamp shone through the shutter on a light sensor, and the sensor's signal was recorded and analysed. The time given is the effective "
        + "time, the light let through divided by the fully open level, where that level was recorded; else the width at 50 % of the light, as the table says. "
        + "The figures are the mean of the exposures of one marked speed. The uncertainty is that of the mean at 95 % (Student's t), with one sample as resolution "
        + "and the noise of the recording as trigger term; the camera's own scatter is part of it.";

    private static string MethodWords(IReadOnlyList<ShutterTest?> tests)
    {
        var kinds = tests.OfType<ShutterTest>().SelectMany(test => test.Readings).Where(reading => reading.StruckOutReason is null)
            .Select(reading => reading.RecordingId is not null).Distinct().ToList();
        return kinds is [true] ? RecordedMethod : kinds is [false] ? TypedMethod : $"{RecordedMethod} Some times were typed: {char.ToLowerInvariant(TypedMethod[0])}{TypedMethod[1..]}";
    }

    /// <summary>The marks of a dial that can be read as such, in the dial's order.</summary>
    public static IReadOnlyList<MarkedSpeed> Marks(Camera camera) =>
        [.. camera.MarkedSpeeds.Select(text => MarkedSpeed.Parse(text).Mark).OfType<MarkedSpeed>()];

    private static ShutterTest? Last(IReadOnlyList<ShutterTest> tests, Phase phase) => tests
        .Where(test => test.Phase == phase && test.Readings.Any(reading => reading.StruckOutReason is null))
        .MaxBy(test => test.MeasuredAt);

    private static Dictionary<MarkedSpeed, (SpeedFigures Figures, IReadOnlyList<Reading> Readings)> Figures(ShutterTest? test, Camera camera)
    {
        if (test is null)
            return [];
        var limits = new SpeedLimits(
            "the workshop's", test.SlowLimitStops, test.FastLimitStops, test.LimitBoundarySeconds,
            test.LimitProvenance.Length > 0 ? test.LimitProvenance : "The workshop's own.");
        var rule = RuleOf(test, camera);
        return test.Readings
            .Where(reading => reading.StruckOutReason is null)
            .Select(reading => (MarkedSpeed.Parse(reading.MarkedSpeed).Mark, reading))
            .Where(pair => pair.Mark is not null)
            .GroupBy(pair => pair.Mark!)
            .ToDictionary(mark => mark.Key, mark =>
            {
                IReadOnlyList<Reading> readings = [.. mark.Select(pair => pair.reading).OrderBy(reading => reading.Position)];
                return (SpeedFigures.For(
                    mark.Key, [.. readings.Select(reading => reading.Seconds)], rule, limits, ShutterFigures.InstrumentOf(test, readings)), readings);
            });
    }

    private static ReferenceRule RuleOf(ShutterTest test, Camera camera) => SpeedSeries.RuleFor(
        Marks(camera), test.LiteralMarks ? Measurement.ShutterTests.ReferenceRule.LiteralMark : Measurement.ShutterTests.ReferenceRule.TrueBinary);

    private static (SpeedFigures Figures, IReadOnlyList<Reading> Readings)? In(
        Dictionary<MarkedSpeed, (SpeedFigures Figures, IReadOnlyList<Reading> Readings)> all, MarkedSpeed mark) => all.TryGetValue(mark, out var one) ? one : null;

    private static ShutterRowFacts Row(
        MarkedSpeed mark, (SpeedFigures Figures, IReadOnlyList<Reading> Readings)? before, (SpeedFigures Figures, IReadOnlyList<Reading> Readings)? after)
    {
        var any = (after ?? before)!.Value.Figures;
        return new ShutterRowFacts
        {
            MarkedSpeed = mark.Text,
            ReferenceSeconds = any.ReferenceSeconds ?? any.Seconds.Mean,
            LowerLimitStops = -any.LimitStops,
            UpperLimitStops = any.LimitStops,
            AsReceived = Facts(before),
            AfterService = Facts(after),
        };
    }

    private static SpeedFiguresFacts? Facts((SpeedFigures Figures, IReadOnlyList<Reading> Readings)? measured) =>
        measured is var (figures, readings) ? ShutterFigures.WithReadings(Facts(figures), figures, readings) : null;

    private static SpeedFiguresFacts Facts(SpeedFigures figures) => new()
    {
        Count = figures.Seconds.Count,
        MeanSeconds = figures.Seconds.Mean,
        DeviationSeconds = figures.Seconds.StandardDeviation,
        ExpandedUncertaintySeconds = figures.Uncertainty?.Expanded,
        ErrorStops = figures.ErrorStops ?? 0,
        // The interval is longer below than above; the bar drawn either way is the longer half, so that none looks better than it is.
        UncertaintyStops = figures.UncertaintyBelowStops ?? figures.UncertaintyAboveStops,
        SpreadStops = figures.SpreadStops,
        Verdict = figures.Uncertainty is null && figures.Seconds.Count == 1 ? null : Of(figures.Verdict),
    };

    private static ShutterSessionFacts? Session(
        ShutterTest? test, Domain.Shop.ShopSettings shop, IReadOnlyDictionary<Guid, string> names) => test is null ? null : new ShutterSessionFacts
        {
            MeasuredOn = shop.Today(test.MeasuredAt),
            Instrument = test.Instrument,
            Source = test.Readings.Any(reading => reading.RecordingId is not null) ? ReadingSource.Recorded : ReadingSource.Typed,
            RoomCelsius = test.RoomTemperatureCelsius,
            MeasuredBy = names.GetValueOrDefault(test.MeasuredBy),
        };

    private static string Sample(IEnumerable<SpeedFigures> figures)
    {
        var counts = figures.Select(one => one.Seconds.Count).ToList();
        var (least, most) = (counts.Min(), counts.Max());
        return least == most
            ? $"{least} reading{(least == 1 ? "" : "s")} at each marked speed."
            : $"{least} to {most} readings at each marked speed, as the table says.";
    }

    private static string MarkText(double seconds) => seconds >= 1
        ? string.Create(CultureInfo.CurrentCulture, $"{seconds:0.#} s")
        : string.Create(CultureInfo.InvariantCulture, $"1/{Math.Round(1 / seconds)} s");
}
