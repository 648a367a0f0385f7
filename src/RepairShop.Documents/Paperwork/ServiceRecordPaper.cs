using RepairShop.Documents.Layout;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>What was found, done and measured.</summary>
internal static class ServiceRecordPaper
{
    public static IReadOnlyList<Block> Compose(Composer c, ServiceRecordFacts facts, IReadOnlyDictionary<string, byte[]> photos)
    {
        var f = c.Formats;
        return
        [
            .. c.Head("Service record", facts.PaperNumber, facts.Shop),
            Composer.Thirds(
                c.Customer(facts.Customer, facts.Shop),
                c.Camera(facts.Camera),
                c.Labelled("Dates", c.Pairs(
                        [
                        ("Received", f.Day(facts.ReceivedOn)),
                        ("Worked", facts.WorkedFrom == facts.WorkedTo ? f.Day(facts.WorkedFrom) : f.Day(facts.WorkedFrom) + " –"),
                        ("", facts.WorkedFrom == facts.WorkedTo ? null : f.Day(facts.WorkedTo)),
                        ("Issued", f.Day(facts.IssueDate)),
                        ("Repair", facts.RepairNumber),
                        ("Issued by", facts.IssuedBy),
                    ]))),
            .. c.TextSection("Complaint", facts.Complaint),
            .. c.TextSection("Condition on receipt", facts.ConditionOnReceipt),
            .. c.TextSection("Place of work", facts.PlaceOfWork),
            .. ShutterSection.Compose(c, facts),
            .. Checks(c, facts),
            .. Gauges(c, facts),
            .. Findings(c, facts, photos),
            .. Parts(c, facts),
            .. Replaced(c, facts),
            .. c.PointsSection("Parts returned", facts.PartsReturned),
            .. c.PointsSection("Not refitted", [.. facts.NotRefitted.Select(left => $"{left.What}: {left.Why}")]),
            .. c.TextSection("Put together", facts.Reassembled is { } how ? $"The repair was declined; the camera is {how}." : null),
            .. facts.LeftAlone.Count == 0 ? [] : c.Section("Left alone", c.Points(facts.LeftAlone.Select(left => $"{left.What}: {left.Why}"))),
            .. c.PointsSection("Done differently", facts.Deviations),
            .. facts.OutsideWork.Count == 0 ? [] : c.Section("Work by others", c.Points(facts.OutsideWork.Select(work => $"{work.What}, by {work.Who}"))),
            .. c.PointsSection("Advice", facts.Advice),
            .. c.Cautions(facts.Cautions),
            .. Warranty(c, facts),
            .. Authorised(c, facts),
            .. c.End($"service record {facts.PaperNumber}"),
        ];
    }

    private static IEnumerable<Block> Checks(Composer c, ServiceRecordFacts facts)
    {
        if (facts.Checks.Count == 0)
            return [];
        var rows = facts.Checks.Select(check => new Row(
        [
            c.Text(check.Name, Composer.Body),
            Outcome(c, check.AsReceived, check.AsReceivedNote),
            Outcome(c, check.AfterService, check.AfterServiceNote),
        ]));
        var head = new Row([null, c.Text("As received", Composer.SmallQuiet), c.Text("After service", Composer.SmallQuiet)]);
        return c.WideSection("Function checks", null, new Table([new Column(0.8f), new Column(1), new Column(1)], head, [.. rows], Palette.Line));
    }

    private static Stack Outcome(Composer c, CheckOutcome? outcome, string? note) => new(
        [
            c.Text(VerdictWords.Of(outcome), outcome == CheckOutcome.Faulty ? Composer.Strong : Composer.Body),
            .. string.IsNullOrWhiteSpace(note) ? Array.Empty<Block>() : [c.Text(note, Composer.SmallQuiet)],
        ]);

    private static IEnumerable<Block> Gauges(Composer c, ServiceRecordFacts facts)
    {
        if (facts.Gauges.Count == 0)
            return [];
        var f = c.Formats;
        Block Value(double? value, string unit) => c.Text(value is { } v ? $"{f.Gauge(v)} {unit}" : "–", Composer.Body, Align.Right);
        string Limits(GaugeRowFacts gauge) => (gauge.LowerLimit, gauge.UpperLimit) switch
        {
            (null, null) => "none set",
            ({ } low, null) => $"at least {f.Gauge(low)} {gauge.Unit}",
            (null, { } high) => $"at most {f.Gauge(high)} {gauge.Unit}",
            ({ } low, { } high) => $"{f.Gauge(low)} to {f.Gauge(high)} {gauge.Unit}",
        };
        var rows = facts.Gauges.Select(gauge => new Row(
        [
            c.Text(gauge.Name, Composer.Body),
            Value(gauge.AsReceived, gauge.Unit),
            Value(gauge.AfterService, gauge.Unit),
            c.Text(Limits(gauge), Composer.Body),
            c.Text(VerdictWords.Of(gauge.Verdict), gauge.Verdict == LimitVerdict.Outside ? Composer.Strong : Composer.Body),
        ]));
        var head = new Row(
        [
            null, c.Text("As received", Composer.SmallQuiet, Align.Right), c.Text("After service", Composer.SmallQuiet, Align.Right),
            c.Text("Limits", Composer.SmallQuiet), c.Text("Verdict", Composer.SmallQuiet),
        ]);
        return c.WideSection("Other measurements", null, new Table([new Column(1), new Column(0), new Column(0), new Column(0, 18), new Column(0)], head, [.. rows], Palette.Line));
    }

    private static IEnumerable<Block> Findings(Composer c, ServiceRecordFacts facts, IReadOnlyDictionary<string, byte[]> photos)
    {
        foreach (var (finding, i) in facts.Findings.Select((finding, i) => (finding, i)))
        {
            var body = new Stack(
                [
                    c.Spans([new(finding.Component, Composer.Strong), new(", ", Composer.Body), new(finding.Condition, Composer.Body)], keepWithNext: true),
                    c.Prose(finding.Text, Composer.Body),
                    .. finding.EvidenceOfEarlierWork is { } earlier ? [c.Text($"Earlier work: {earlier}", Composer.Body)] : Array.Empty<Block>(),
                    .. finding.ActionTaken is { } action ? [c.Text($"Done: {action}", Composer.Body)] : Array.Empty<Block>(),
                    .. PhotoRows(c, finding.Photos, photos),
                ], 2);
            foreach (var block in i == 0 ? c.Section("Findings", body) : [new Spacer(3 * Composer.Step), c.Beside(null, body)])
                yield return block;
        }
    }

    /// <summary>Two to a row, captions under them.</summary>
    private static IEnumerable<Block> PhotoRows(Composer c, IReadOnlyList<PhotoFacts> wanted, IReadOnlyDictionary<string, byte[]> photos)
    {
        var blocks = wanted.Where(photo => photos.ContainsKey(photo.Sha256)).Select(photo => (Block)new Stack(
            [
                PhotoBlock.Of(photos[photo.Sha256], 126),
                new Spacer(Composer.Step),
                .. photo.Caption is { } caption ? [c.Text(caption, Composer.SmallQuiet)] : Array.Empty<Block>(),
            ], together: true));
        foreach (var pair in blocks.Chunk(2))
        {
            yield return new Spacer(Composer.Step);
            yield return new Columns([(pair[0], 1), (pair.Length > 1 ? pair[1] : new Spacer(0), 1)], 12);
        }
    }

    private static IEnumerable<Block> Parts(Composer c, ServiceRecordFacts facts)
    {
        if (facts.PartsFitted.Count == 0)
            return [];
        var rows = facts.PartsFitted.Select(part => new Row(
        [
            c.Text(part.Name, Composer.Body),
            c.Text(part.PartNumber ?? "", Composer.Body),
            c.Text(c.Formats.Quantity(part.Quantity), Composer.Body, Align.Right),
            c.Text(part.Unit, Composer.Body),
            c.Text(part.Provenance, Composer.Body),
        ]));
        var head = new Row(
        [
            null, c.Text("Number", Composer.SmallQuiet), c.Text("Quantity", Composer.SmallQuiet, Align.Right), c.Text("Unit", Composer.SmallQuiet), c.Text("Where it came from", Composer.SmallQuiet),
        ]);
        return c.WideSection("Parts fitted", null, new Table([new Column(1), new Column(0), new Column(0), new Column(0, 6), new Column(0, 18)], head, [.. rows], Palette.Line));
    }

    private static IEnumerable<Block> Replaced(Composer c, ServiceRecordFacts facts)
    {
        if (facts.PartsReplaced.Count == 0)
            return [];
        var rows = facts.PartsReplaced.Select(part => new Row(
        [
            c.Text(part.Name, Composer.Body),
            c.Text(part.Count.ToString(c.Formats.Culture), Composer.Body, Align.Right),
            c.Text(part.By, Composer.Body),
            c.Text(part.Provenance, Composer.Body),
            c.Text(part.OldGoesBack ? "in the bag" : "kept by the shop", Composer.Body),
        ]));
        var head = new Row(
        [
            c.Text("Taken out", Composer.SmallQuiet), c.Text("Count", Composer.SmallQuiet, Align.Right), c.Text("Replaced by", Composer.SmallQuiet), c.Text("Where it came from", Composer.SmallQuiet), c.Text("Old part", Composer.SmallQuiet),
        ]);
        return c.WideSection("Parts replaced", null, new Table([new Column(1), new Column(0), new Column(1, 18), new Column(0, 18), new Column(0)], head, [.. rows], Palette.Line));
    }

    private static IEnumerable<Block> Warranty(Composer c, ServiceRecordFacts facts)
    {
        var until = facts.WarrantyUntil is { } day ? $"Warranty on this work until {c.Formats.Day(day)}." : null;
        return c.TextSection("Warranty", string.Join(' ', new[] { until, facts.Warranty }.OfType<string>()));
    }

    private static IEnumerable<Block> Authorised(Composer c, ServiceRecordFacts facts) => c.Section("Authorised by",
        c.Text("The results relate only to this camera, as it was on the days named.", Composer.Body),
        c.Spans(
        [
            new(facts.AuthorisedBy, Composer.Strong),
            new(facts.AuthorisedRole is null ? "" : $", {facts.AuthorisedRole}", Composer.Body),
            new($", {c.Formats.Moment(facts.IssuedAt)}", Composer.Quiet),
        ]));
}
