using RepairShop.Documents.Charts;
using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>Shutter times before and after: table, chart, repeatability and closing, and how they were measured and judged.</summary>
internal static class ShutterSection
{
    private const string Uncertainty = "± is the expanded uncertainty of the mean for 95 %. Error is in stops; plus is longer than the time it is held against.";

    /// <summary>ISO 516:2019 says in its scope that its tolerances are targets, not inspection limits.</summary>
    private const string NoStandard = "The limits are the workshop’s own. The readings are no measurement to ISO 516, whether typed from an instrument or taken from a recorded light signal.";

    public static IEnumerable<Block> Compose(Composer c, ServiceRecordFacts facts) =>
        facts.ShutterRows.Count == 0
            ? c.TextSection("Method", facts.Method)
            :
            [
                .. c.WideSection("Shutter times", "times in milliseconds",
                    BeforeAndAfter(c, facts),
                    new Spacer(3 * Composer.Step) { KeepWithNext = true },
                    new ChartBlock(c.Shaper, ErrorInStopsChart.Draw(facts.ShutterRows, c.Formats.Culture, SheetSize.For(facts.Shop.Country).Inner)),
                    c.Text(ChartWords(facts), Composer.SmallQuiet)),
                .. Repeatability(c, facts),
                .. RecordedSection.Compose(c, facts),
                .. c.Section("How measured", How(c, facts)),
                .. c.Section("How judged", Judged(c, facts)),
            ];

    private static string ChartWords(ServiceRecordFacts facts) =>
        "Error in stops at each marked speed. Hollow: as received. Filled: after service. Bars: ± 95 %."
        + (facts.ShutterRows.Any(row => row.UpperLimitStops is not null) ? " Shaded: the limits." : "");

    private static Table BeforeAndAfter(Composer c, ServiceRecordFacts facts)
    {
        var f = c.Formats;
        IReadOnlyList<string> Column(Func<ShutterRowFacts, string?> figure) => c.OnThePoint(facts.ShutterRows.Select(row => figure(row) ?? "–"));
        Func<int, IEnumerable<Block?>> Session(Func<ShutterRowFacts, SpeedFiguresFacts?> pick)
        {
            var means = Column(row => pick(row) is { } figures ? f.Milliseconds(figures.MeanSeconds, figures.ExpandedUncertaintySeconds) : null);
            var uncertainties = Column(row => pick(row)?.ExpandedUncertaintySeconds is { } u ? f.UncertaintyMilliseconds(u) : null);
            return i => pick(facts.ShutterRows[i]) is not { } figures
                ? [Right(c, means[i]), null, null, c.Text("not measured", Composer.SmallQuiet)]
                :
                [
                    Right(c, means[i]), Right(c, uncertainties[i]), Right(c, f.Stops(figures.ErrorStops)),
                    c.Text(VerdictWords.Of(figures.Verdict), figures.Verdict == LimitVerdict.Outside ? Composer.SmallStrong : Composer.Small),
                ];
        }

        var (before, after) = (Session(row => row.AsReceived), Session(row => row.AfterService));
        var references = Column(row => f.Milliseconds(row.ReferenceSeconds, null));
        var rows = facts.ShutterRows.Select((row, i) => new Row([Right(c, row.MarkedSpeed, Composer.Strong), Right(c, references[i], Composer.Quiet), .. before(i), .. after(i)]));
        var head = new Row(
        [
            Head(c, "", "Marked"), Head(c, "", "Held against"),
            .. Group(c, "As received", Day(c, facts.AsReceivedSession)),
            .. Group(c, "After service", Day(c, facts.AfterServiceSession)),
        ]);
        return new Table(
            [new Column(0), new Column(0), new Column(0, 21), new Column(0, 9), new Column(0, 9), new Column(1, 9), new Column(0, 12), new Column(0, 9), new Column(0, 9), new Column(1, 9)],
            head, [.. rows], Palette.Line);
    }

    private static IEnumerable<Block> Group(Composer c, string name, string day) =>
        [Head(c, name, "mean"), Head(c, "", "±"), Head(c, "", "stops"), new Stack([c.Text(day, Composer.SmallQuiet), c.Text("verdict", Composer.SmallQuiet)])];

    private static string Day(Composer c, ShutterSessionFacts? session) => session is null ? " " : c.Formats.ShortDay(session.MeasuredOn);

    private static Stack Head(Composer c, string above, string name) =>
        new([c.Text(above.Length == 0 ? " " : above, Composer.SmallStrong, Align.Right), c.Text(name, Composer.SmallQuiet, Align.Right)]);

    private static Block Right(Composer c, string text, TextStyle? style = null) => c.Text(text, style ?? Composer.Body, Align.Right);

    /// <summary>Number of exposures, scatter and closing time of both sessions.</summary>
    private static IEnumerable<Block> Repeatability(Composer c, ServiceRecordFacts facts)
    {
        var f = c.Formats;
        var closing = facts.ShutterRows.Any(row => (row.AsReceived?.ClosingMilliseconds ?? row.AfterService?.ClosingMilliseconds) is not null);
        IReadOnlyList<string> Deviations(Func<ShutterRowFacts, SpeedFiguresFacts?> pick) =>
            c.OnThePoint(facts.ShutterRows.Select(row => pick(row)?.DeviationSeconds is { } s ? f.Milliseconds(s, null) : "–"));
        IEnumerable<Block?> Figures(SpeedFiguresFacts? figures, string deviation) =>
        [
            Right(c, figures?.Count.ToString(f.Culture) ?? "–"),
            Right(c, deviation),
            Right(c, figures?.SpreadStops is { } spread ? f.Number(spread, 2) : "–"),
            .. closing ? [Right(c, figures?.ClosingMilliseconds is { } ms ? f.Number(ms, 1) : "–")] : Array.Empty<Block?>(),
        ];
        IEnumerable<Block> Names(string session) =>
        [
            Head(c, session, "exposures"), Head(c, "", "deviation"), Head(c, "", "spread, stops"),
            .. closing ? [Head(c, "", "closing")] : Array.Empty<Block>(),
        ];
        var (before, after) = (Deviations(row => row.AsReceived), Deviations(row => row.AfterService));
        var rows = facts.ShutterRows.Select((row, i) => new Row([Right(c, row.MarkedSpeed, Composer.Strong), .. Figures(row.AsReceived, before[i]), .. Figures(row.AfterService, after[i]), null]));
        IEnumerable<Column> Group() => [new Column(0, 21), new Column(0), new Column(0), .. closing ? [new Column(0)] : Array.Empty<Column>()];
        var head = new Row([Head(c, "", "Marked"), .. Names("As received"), .. Names("After service"), null]);
        var table = new Table([new Column(0), .. Group(), .. Group(), new Column(1, 0)], head, [.. rows], Palette.Line);
        var chart = ClosingTimeChart.Draw(facts.ShutterRows, f.Culture, SheetSize.For(facts.Shop.Country).Inner);
        return c.WideSection("Repeatability" + (closing ? " and closing" : ""),
            closing ? "deviation and closing time (90 to 10 % of the light) in milliseconds" : "standard deviation in milliseconds; spread from shortest to longest",
            [table, .. chart is null ? Array.Empty<Block>() : [new Spacer(3 * Composer.Step), new ChartBlock(c.Shaper, chart), c.Text("Closing time in milliseconds. Hollow: as received. Filled: after service. Shorter is crisper.", Composer.SmallQuiet)]]);
    }

    private static IEnumerable<Block> How(Composer c, ServiceRecordFacts facts)
    {
        yield return c.Text(facts.Method, Composer.Body);
        foreach (var (name, session) in new[] { ("As received", facts.AsReceivedSession), ("After service", facts.AfterServiceSession) })
            if (session is not null)
                yield return c.Text($"{name}, {c.Formats.Day(session.MeasuredOn)}: {Session(c, session)}", Composer.Body);
        if (facts.Sampling is not null)
            yield return c.Text(facts.Sampling, Composer.Body);
        yield return c.Text(Uncertainty, Composer.Body);
        foreach (var words in RecordedSection.Words(c, facts))
            yield return c.Text(words, Composer.SmallQuiet);
    }

    private static string Session(Composer c, ShutterSessionFacts session) => string.Join(", ", new[]
    {
        session.Instrument,
        session.Source == ReadingSource.Typed ? "readings typed from its display" : "readings from recorded light signals",
        session.RoomCelsius is { } celsius ? $"room {c.Formats.Number(celsius, 1)}\u00A0°C" : null,
        session.MeasuredBy is { } person ? $"by {person}" : null,
    }.OfType<string>()) + ".";

    private static IEnumerable<Block> Judged(Composer c, ServiceRecordFacts facts)
    {
        foreach (var sentence in new[] { facts.ReferenceRule, facts.LimitsName, Limits(c, facts), facts.DecisionRule })
            if (!string.IsNullOrWhiteSpace(sentence))
                yield return c.Text(sentence, Composer.Body);
        yield return c.Text(NoStandard, Composer.Body);
    }

    /// <summary>Each pair of limits with the speeds it is for.</summary>
    private static string? Limits(Composer c, ServiceRecordFacts facts)
    {
        var groups = facts.ShutterRows
            .Where(row => row is { LowerLimitStops: not null, UpperLimitStops: not null })
            .GroupBy(row => (Low: row.LowerLimitStops!.Value, High: row.UpperLimitStops!.Value))
            .Select(group => $"{c.Formats.Stops(group.Key.Low)} to {c.Formats.Stops(group.Key.High)} stops at {string.Join(", ", group.Select(row => row.MarkedSpeed))}")
            .ToList();
        return groups.Count == 0 ? null : $"Limits: {string.Join("; ", groups)}.";
    }
}
