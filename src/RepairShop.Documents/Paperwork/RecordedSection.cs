using RepairShop.Documents.Charts;
using RepairShop.Documents.Layout;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>What recordings add to the shutter times: the light laid over itself, curtains, flash contact, and what the uncertainties are made of.</summary>
internal static class RecordedSection
{
    private const int Gap = 14, ChartHeight = 104;

    public static IEnumerable<Block> Compose(Composer c, ServiceRecordFacts facts) => [.. Signals(c, facts), .. Curtains(c, facts), .. Flash(c, facts)];

    /// <summary>What each speed's time is, and the terms of its uncertainty; nothing for typed times.</summary>
    public static IEnumerable<string> Words(Composer c, ServiceRecordFacts facts)
    {
        var meanings = facts.ShutterRows
            .SelectMany(row => new[] { (row.MarkedSpeed, row.AsReceived?.Meaning), (row.MarkedSpeed, row.AfterService?.Meaning) })
            .Where(pair => pair.Item2 is TimeMeaning.HalfWidth or TimeMeaning.Effective).Distinct().GroupBy(pair => pair.Item2).ToList();
        foreach (var group in meanings)
            yield return $"{(group.Key == TimeMeaning.Effective ? "Effective times" : "Widths at 50 % of the light")}: {string.Join(", ", group.Select(pair => pair.MarkedSpeed))}.";
        if (meanings.Count == 0)
            yield break;
        foreach (var (name, pick) in new (string, Func<ShutterRowFacts, SpeedFiguresFacts?>)[] { ("as received", row => row.AsReceived), ("after service", row => row.AfterService) })
        {
            var rows = facts.ShutterRows.Where(row => pick(row) is { Terms.Count: > 0 })
                .Select(row => $"{row.MarkedSpeed} {string.Join(" + ", pick(row)!.Terms.Select(term => c.Formats.Number(term.StandardSeconds * 1000, 4)))}").ToList();
            if (rows.Count > 0)
                yield return $"Terms of the uncertainty {name}, one standard uncertainty each in milliseconds, scatter + one sample + noise at the crossings: {string.Join("; ", rows)}.";
        }
    }

    private static IEnumerable<Block> Signals(Composer c, ServiceRecordFacts facts)
    {
        var half = (SheetSize.For(facts.Shop.Country).Inner - Gap) / 2;
        var charts = facts.Traces
            .Select(speed => (speed.MarkedSpeed, Drawing: ExposureChart.Overlay(speed, c.Formats.Culture, half, ChartHeight)))
            .Where(chart => chart.Drawing is not null)
            .Select(chart => (Block)new Stack([c.Text(chart.MarkedSpeed, Composer.SmallStrong), new ChartBlock(c.Shaper, chart.Drawing!)], together: true)).ToList();
        return charts.Count == 0 ? [] : c.WideSection("Light over time", "one exposure of each speed, laid over each other where half the light has come",
            [.. charts.Chunk(2).Select(pair => (Block)new Columns([(pair[0], 1), (pair.Length > 1 ? pair[1] : new Spacer(0), 1)], Gap))]);
    }

    private static IEnumerable<Block> Curtains(Composer c, ServiceRecordFacts facts)
    {
        if (facts.Curtains.Count == 0)
            return [];
        var f = c.Formats;
        string Ms(double? value) => value is { } ms ? f.Number(ms, 2) : "–";
        var rows = facts.Curtains.Select(run => new Row(
        [
            c.Text(run.MarkedSpeed, Composer.Strong, Align.Right), c.Text(When(run.AfterService), Composer.Small),
            Right(c, run.Count.ToString(f.Culture)), Right(c, Ms(run.FirstCurtainMilliseconds)), Right(c, Ms(run.SecondCurtainMilliseconds)),
            Right(c, string.Join(" · ", run.Points.Select(point => Ms(point.Milliseconds)))),
            Right(c, string.Join(" · ", run.Points.Select(point => point.SlitMm is { } slit ? f.Number(slit, 1) : "–"))),
            Right(c, run.IsCapping ? "capping" : run.NonUniformityStops is { } stops ? f.Number(stops, 2) : "–"),
        ]));
        return c.WideSection("Curtains", "times over the whole frame in milliseconds; exposure first edge · centre · last edge; unevenness is largest over smallest, in stops",
            new Table([new Column(0), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(1, 9), new Column(1, 9), new Column(0, 9)],
                Heads(c, "Marked", "", "n", "first", "second", "exposure", "slit, mm", "unevenness"), [.. rows], Palette.Line));
    }

    private static IEnumerable<Block> Flash(Composer c, ServiceRecordFacts facts)
    {
        if (facts.Flash.Count == 0)
            return [];
        var f = c.Formats;
        var rows = facts.Flash.Select(flash => new Row(
        [
            c.Text(flash.MarkedSpeed, Composer.Strong, Align.Right), c.Text(When(flash.AfterService), Composer.Small), Right(c, flash.Contact ?? "–"), Right(c, flash.Count.ToString(f.Culture)),
            Right(c, f.Stops(flash.ToFullyOpenMilliseconds)), Right(c, flash.HoldMilliseconds is { } hold ? f.Number(hold, 1) : "–"),
            c.Text(VerdictWords.Of(flash.Verdict), flash.Verdict == LimitVerdict.Outside ? Composer.SmallStrong : Composer.Small),
        ]));
        return c.WideSection("Flash contact", "milliseconds from contact to fully open: plus when the contact leads",
            new Table([new Column(0), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(1, 12)],
                Heads(c, "Marked", "", "contact", "n", "to fully open", "closed for", ""), [.. rows], Palette.Line));
    }

    private static Row Heads(Composer c, params string[] names) => new([.. names.Select(name => (Block?)Head(c, name))]);

    private static Block Head(Composer c, string name) => c.Text(name.Length == 0 ? " " : name, Composer.SmallQuiet, Align.Right);

    private static Block Right(Composer c, string text) => c.Text(text, Composer.Small, Align.Right);

    private static string When(bool after) => after ? "after service" : "as received";
}
