using RepairShop.Documents.Layout;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>What passed between shop and customer in a span of days.</summary>
internal static class StatementPaper
{
    public static IReadOnlyList<Block> Compose(Composer c, StatementFacts facts)
    {
        var f = c.Formats;
        return
        [
            .. c.Head("Statement", facts.PaperNumber, facts.Shop),
            Composer.Thirds(
                c.Customer(facts.Customer, facts.Shop),
                c.Labelled("Days", c.Pairs([("From", f.Day(facts.From)), ("To", f.Day(facts.Until))])),
                c.Labelled("Dates", c.Pairs([("Issued", f.Moment(facts.IssuedAt)), ("Issued by", facts.IssuedBy)]))),
            new Spacer(4 * Composer.Step),
            Lines(c, facts),
            .. c.Section("Owed", c.Pairs(Owed(c, facts), Composer.Strong)),
            .. Payment(c, facts),
            .. c.End($"statement {facts.PaperNumber}"),
        ];
    }

    private static Table Lines(Composer c, StatementFacts facts)
    {
        var f = c.Formats;
        Row Sum(string name, DateOnly on, decimal balance) => new(
            [c.Text(f.Day(on), Composer.Body), c.Text(name, Composer.Strong), null, c.Text(f.Amount(balance), Composer.Strong, Align.Right)]);
        var head = new Row(
            [
                c.Text("Date", Composer.SmallQuiet), c.Text("What", Composer.SmallQuiet),
                c.Text($"Amount, {facts.Currency}", Composer.SmallQuiet, Align.Right), c.Text($"Balance, {facts.Currency}", Composer.SmallQuiet, Align.Right),
            ]);
        return new Table([new Column(0), new Column(1, 12), new Column(0), new Column(0)], head,
            [
                Sum("Opening balance", facts.From, facts.Opening),
                .. facts.Lines.Select(line => new Row(
                    [
                        c.Text(f.Day(line.On), Composer.Body),
                        line.Text.Length == 0 ? c.Text(What(line), Composer.Body) : new Stack([c.Text(What(line), Composer.Body), c.Text(line.Text, Composer.SmallQuiet)]),
                        c.Text(f.Amount(line.Amount), Composer.Body, Align.Right),
                        c.Text(f.Amount(line.Balance), Composer.Body, Align.Right),
                    ])),
                Sum("Closing balance", facts.Until, facts.Closing),
            ], Palette.Line);
    }

    private static string What(StatementLineFacts line) => StatementWords.Of(line.Kind, line.Paper);

    private static IEnumerable<(string, string?)> Owed(Composer c, StatementFacts facts)
    {
        foreach (var (name, amount) in StatementWords.Owed(facts))
            yield return (name, c.Formats.Money(amount));
    }

    private static IEnumerable<Block> Payment(Composer c, StatementFacts facts)
    {
        if (facts.Closing <= 0)
            return c.Section("Payment", c.Text("Nothing is to be paid.", Composer.Body));
        return c.Section("Payment",
            c.Text($"To pay: {c.Formats.Money(facts.Closing)}. Please give the numbers of the invoices you pay.", Composer.Body),
            c.Pairs(
                [
                    ("Payee", facts.Shop.Iban is null ? null : facts.Shop.Name),
                    ("IBAN", facts.Shop.Iban is { } iban ? InvoicePaper.Grouped(iban) : null),
                    ("BIC", facts.Shop.Bic),
                    ("Bank", facts.Shop.BankDetails),
                ]));
    }
}
