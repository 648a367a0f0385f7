using RepairShop.Documents.Layout;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>For the bench wall: read standing, ticked and written on with a pencil.</summary>
internal static class BenchSheetPaper
{
    private const int BlankSteps = 14;

    public static IReadOnlyList<Block> Compose(Composer c, BenchSheetFacts facts)
    {
        var f = c.Formats;
        return
        [
            .. c.Head("Bench sheet", facts.PaperNumber, facts.Shop),
            new Columns(
                [
                    (c.Camera(facts.Camera), 1.3f),
                    (c.Labelled("Job", c.Pairs(
                        [
                            ("Repair", facts.RepairNumber),
                            ("Customer", facts.CustomerName),
                            ("Received", f.Day(facts.ReceivedOn)),
                            ("Wanted by", facts.WantedBy is { } day ? f.Day(day) : null),
                            ("Shelf", facts.Shelf),
                            ("Hours", Hours(c, facts)),
                            ("Approved up to", facts.ApprovedUpTo is { } most ? f.Money(most) : "nothing yet"),
                            ("Printed by", facts.IssuedBy),
                        ])), 1.5f),
                    (new QrBlock(facts.RepairUrl, 66, Palette.Ink, right: true), 0.6f),
                ],
                18),
            .. c.Cautions(facts.Cautions),
            .. c.TextSection("Complaint", facts.Complaint),
            .. c.TextSection("Condition on receipt", facts.ConditionOnReceipt),
            .. c.TextSection("Came with it", string.Join(" · ", facts.CameWith)),
            .. c.PointsSection("Mind", facts.Notes),
            .. StripDown(c, facts),
            .. Readings(c, facts),
            .. Checks(c, facts),
            .. c.End($"bench sheet {facts.PaperNumber}"),
        ];
    }

    private static string? Hours(Composer c, BenchSheetFacts facts) => (facts.LowHours, facts.HighHours) switch
    {
        (null, null) => null,
        ({ } low, { } high) when low != high => $"{c.Formats.Quantity(low)} to {c.Formats.Quantity(high)}",
        var (low, high) => c.Formats.Quantity((high ?? low)!.Value),
    };

    private static IEnumerable<Block> StripDown(Composer c, BenchSheetFacts facts)
    {
        IEnumerable<Row> rows = facts.StripDown.Count > 0
            ? facts.StripDown.Select(step => new Row(
            [
                c.Text(step.Number.ToString(c.Formats.Culture), Composer.Quiet, Align.Right),
                new Stack([c.Text(step.Text, Composer.Body), .. step.Mind is { } mind ? [c.Text("▲ " + mind, Composer.SmallStrong)] : Array.Empty<Block>()]),
                c.Text(step.HeldBy ?? "", Composer.Body),
                c.Text(step.Cell ?? "", Composer.Strong),
                new TickBox(Palette.Soft, step.IsBack),
            ]))
            : Enumerable.Range(1, BlankSteps).Select(number => new Row([c.Text(number.ToString(c.Formats.Culture), Composer.Quiet, Align.Right), new Spacer(13.5f), null, null, new TickBox(Palette.Soft)]));
        var head = new Row(
        [
            c.Text("No.", Composer.SmallQuiet, Align.Right), c.Text("What comes off", Composer.SmallQuiet), c.Text("Held by", Composer.SmallQuiet), c.Text("Cell", Composer.SmallQuiet), c.Text("Back", Composer.SmallQuiet),
        ]);
        var blank = facts.StripDown.Count == 0;
        return c.WideSection("Strip-down", blank ? "write down in the order of taking apart" : "back in reverse order",
            new Table([new Column(0), new Column(1.6f), new Column(blank ? 0.7f : 0.6f), new Column(blank ? 0.4f : 0), new Column(0)], head, [.. rows], Palette.Line));
    }

    private static IEnumerable<Block> Readings(Composer c, BenchSheetFacts facts)
    {
        if (facts.Readings.Count == 0)
            return [];
        var f = c.Formats;
        string Time(double? seconds) => seconds is { } s ? f.Milliseconds(s, null) : "–";
        var rows = facts.Readings.Select(reading => new Row(
        [
            c.Text(reading.MarkedSpeed, Composer.Strong, Align.Right),
            c.Text(Time(reading.ReferenceSeconds), Composer.Body, Align.Right),
            c.Text(reading is { ShortestSeconds: null, LongestSeconds: null } ? "–" : $"{Time(reading.ShortestSeconds)} to {Time(reading.LongestSeconds)}", Composer.Quiet, Align.Right),
            new WritingLine(15, Palette.Line), new WritingLine(15, Palette.Line), new WritingLine(15, Palette.Line), new WritingLine(15, Palette.Line), new WritingLine(15, Palette.Line),
        ])
        { Ruled = false });
        var head = new Row(
        [
            c.Text("Marked", Composer.SmallQuiet, Align.Right), c.Text("Time", Composer.SmallQuiet, Align.Right), c.Text("Within limits", Composer.SmallQuiet, Align.Right),
            .. Enumerable.Range(1, 5).Select(n => c.Text(n.ToString(f.Culture), Composer.SmallQuiet)),
        ]);
        return c.WideSection("Readings to take", "milliseconds",
            new Stack([new Table([new Column(0), new Column(0), new Column(0), new Column(1, 18), new Column(1), new Column(1), new Column(1), new Column(1)], head, [.. rows], Palette.Line, padding: 2)], together: true));
    }

    private static IEnumerable<Block> Checks(Composer c, BenchSheetFacts facts)
    {
        if (facts.Checks.Count == 0)
            return [];
        Table Check(string name) => new([new Column(0), new Column(1, 6)], null, [new Row([new TickBox(Palette.Soft), c.Text(name, Composer.Body)]) { Ruled = false }], Palette.Line, padding: 1.5f);
        var rows = facts.Checks.Chunk(3).Select(names => (Block)new Columns([.. Enumerable.Range(0, 3).Select(i => ((Block)(i < names.Length ? Check(names[i]) : new Spacer(0)), 1f))], 18));
        return c.WideSection("Checks before it goes home", null, [new Stack([.. rows])]);
    }
}
