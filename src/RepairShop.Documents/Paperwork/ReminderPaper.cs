using RepairShop.Documents.Layout;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>A letter about invoices that are late, with how to pay them.</summary>
internal static class ReminderPaper
{
    public static IReadOnlyList<Block> Compose(Composer c, ReminderFacts facts)
    {
        var f = c.Formats;
        return
        [
            .. c.Head(facts.Title, facts.PaperNumber, facts.Shop),
            Composer.Thirds(
                c.Customer(facts.Customer, facts.Shop),
                c.Labelled("To pay by", c.Text(f.Day(facts.PayBy), Composer.Strong), c.Text(f.Money(facts.Total), Composer.Body)),
                c.Labelled("Dates", c.Pairs([("Issued", f.Day(facts.IssueDate)), ("Issued by", facts.IssuedBy)]))),
            new Spacer(5 * Composer.Step),
            .. Paragraphs(c, facts.Text),
            new Spacer(4 * Composer.Step),
            Lines(c, facts),
            new Spacer(3 * Composer.Step),
            new Section(Payment(c, facts), Totals(c, facts), 204, 24),
            new Spacer(5 * Composer.Step),
            c.Text(ReminderFacts.Crossed, Composer.Body),
            .. c.End($"reminder {facts.PaperNumber}"),
        ];
    }

    /// <summary>An empty line in the owner's text stays one.</summary>
    private static IEnumerable<Block> Paragraphs(Composer c, string text) => text.ReplaceLineEndings("\n").Split('\n')
        .Select(line => line.Trim().Length == 0 ? (Block)new Spacer(2 * Composer.Step) : c.Prose(line.TrimEnd(), Composer.Body));

    private static Table Lines(Composer c, ReminderFacts facts)
    {
        var f = c.Formats;
        var head = new Row(
            [
                c.Text("Invoice", Composer.SmallQuiet), c.Text("Issued", Composer.SmallQuiet), c.Text("Was due", Composer.SmallQuiet),
                c.Text($"Amount, {facts.Currency}", Composer.SmallQuiet, Align.Right), c.Text("Paid", Composer.SmallQuiet, Align.Right),
                c.Text("Taken off", Composer.SmallQuiet, Align.Right), c.Text("Still due", Composer.SmallQuiet, Align.Right),
            ]);
        Block Figure(decimal amount, bool isSum = false) =>
            c.Text(amount == 0 && !isSum ? "–" : f.Amount(isSum ? amount : -amount), isSum ? Composer.Strong : Composer.Body, Align.Right);
        return new Table(
            [new Column(1), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(0, 9), new Column(0, 9)], head,
            [.. facts.Lines.Select(line => new Row(
                [
                    c.Text(line.Number, Composer.Strong), c.Text(f.Day(line.IssueDate), Composer.Body),
                    new Stack([c.Text(f.Day(line.DueDate), Composer.Body), c.Text(ReminderWords.Late(line.DaysLate), Composer.SmallQuiet)]),
                    c.Text(f.Amount(line.Amount), Composer.Body, Align.Right), Figure(line.Paid), Figure(line.Credited + line.WrittenOff), Figure(line.Due, isSum: true),
                ]))],
            Palette.Line);
    }

    private static Stack Totals(Composer c, ReminderFacts facts)
    {
        var f = c.Formats;
        var rows = ReminderWords.Parts(facts, f.Day)
            .Select(part => new Row([c.Text(part.Name, Composer.Body), c.Text(f.Money(part.Amount), Composer.Body, Align.Right)]) { Ruled = false }).ToList();
        return new Stack(
            [
                new Rule(Palette.Line, 0.5f), new Spacer(Composer.Step),
                .. rows.Count == 0 ? Array.Empty<Block>() : [Sums(rows), new Spacer(Composer.Step)],
                Sums([new Row([c.Text($"To pay by {f.Day(facts.PayBy)}", Composer.Large), c.Text(f.Money(facts.Total), Composer.Large, Align.Right)]) { Ruled = false }]),
                new Spacer(Composer.Step), new Rule(Palette.Ink, 0.7f), new Spacer(1.5f), new Rule(Palette.Ink, 0.7f),
            ], together: rows.Count < 20);
    }

    private static Table Sums(IReadOnlyList<Row> rows) => new([new Column(1), new Column(0, 12)], null, rows, Palette.Line, padding: 1);

    private static Stack Payment(Composer c, ReminderFacts facts)
    {
        var alone = facts.Lines.Count == 1 ? facts.PaymentReference ?? facts.Lines[0].Number : null;
        var blocks = new List<Block>
        {
            new Spacer(1),
            c.Text("Payment", Composer.Strong),
            c.Pairs(
                [
                    ("Payee", facts.Shop.Iban is null ? null : facts.Shop.Name),
                    ("IBAN", facts.Shop.Iban is { } iban ? InvoicePaper.Grouped(iban) : null),
                    ("BIC", facts.Shop.Bic),
                    ("Reference", alone is null || facts.PaymentReference is null ? alone : InvoicePaper.Grouped(alone)),
                ]),
        };
        if (alone is null)
            blocks.Add(c.Text("Please give the numbers of the invoices you pay.", Composer.Body));
        if (facts.Shop.BankDetails is not null)
            blocks.Add(c.Text(facts.Shop.BankDetails, Composer.Body));
        if (EpcPayload.For(facts) is { } payload)
            blocks.AddRange([new Spacer(Composer.Step), new Columns([(new QrBlock(payload, 74, Palette.Ink), 1), (c.Text("Scan to pay by SEPA transfer", Composer.SmallQuiet), 1.3f)], 12)]);
        return new Stack(blocks, Composer.Step);
    }
}
