using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>Invoice and credit note.</summary>
internal static class InvoicePaper
{
    public static IReadOnlyList<Block> Compose(Composer c, InvoiceFacts facts)
    {
        var credit = facts.CreditsNumber is not null;
        var f = c.Formats;
        return
        [
            .. c.Head(LegalContent.TitleOf(facts), facts.PaperNumber, facts.Shop),
            Composer.Thirds(
                c.Customer(facts.Customer, facts.Shop),
                c.Camera(facts.Camera),
                c.Labelled("Dates", c.Pairs(
                        [
                        ("Issued", f.Day(facts.IssueDate)),
                        ("Supplied", f.Day(facts.SupplyDate)),
                        ("Due", !credit && facts.DueDate is { } due ? f.Day(due) : null),
                        ("Repair", facts.RepairNumber),
                        ("Issued by", facts.IssuedBy),
                    ]))),
            .. credit ? c.Section("Takes back", Credits(c, facts)) : [],
            .. c.TextSection("Complaint", facts.Complaint),
            new Spacer(4 * Composer.Step),
            LineTable.Of(c, facts),
            new Spacer(2 * Composer.Step),
            Totals(c, facts, credit),
            .. Wordings(c, facts),
            .. c.PointsSection("Approved", facts.Approvals),
            .. Notes(c, facts),
            .. c.End($"{LegalContent.TitleOf(facts).ToLowerInvariant()} {facts.PaperNumber}"),
        ];
    }

    private static Block Credits(Composer c, InvoiceFacts facts)
    {
        var day = facts.CreditsIssueDate is { } issued ? $" of {c.Formats.Day(issued)}" : "";
        var reason = facts.CreditReason is null ? "" : $" {facts.CreditReason}";
        return c.Text($"Invoice {facts.CreditsNumber}{day}.{reason}", Composer.Body);
    }

    /// <summary>Sums under the amounts they come from: label and figure, the total under a line of ink, the last figure under a double one.</summary>
    private static Section Totals(Composer c, InvoiceFacts facts, bool credit)
    {
        var f = c.Formats;
        var rows = new List<Row>();
        void Add(string name, decimal amount, TextStyle? style = null) => rows.Add(
            new Row([c.Text(name, style ?? Composer.Body), c.Text(f.Money(amount), style ?? Composer.Body, Align.Right)]) { Ruled = false });

        if (facts.Allowances.Count > 0 || (facts.Taxes.Count > 0 && !facts.PricesIncludeTax))
            Add("Sum of lines", facts.Lines.Sum(line => line.Amount));
        foreach (var allowance in facts.Allowances)
            Add(allowance.Percent is { } percent ? $"{allowance.Text}, {f.Percent(percent)} of {f.Amount(allowance.Base)}" : allowance.Text, -allowance.Amount);
        if (facts.Taxes.Count > 0 && (facts.PricesIncludeTax || facts.Allowances.Count > 0))
            Add("Net", facts.Net);
        foreach (var tax in facts.Taxes)
            Add($"{tax.Name} {f.Percent(tax.Percent)} on {f.Amount(tax.Base)}", tax.Tax);
        var sums = rows.ToList();
        rows.Clear();
        Add(credit ? "Total given back" : "Total", facts.Total, Composer.Large);
        var total = rows.ToList();
        rows.Clear();
        if (!credit)
        {
            foreach (var payment in facts.Payments)
                Add($"Paid {f.Day(payment.PaidOn)}, {payment.Method}{(payment.Reference is null ? "" : $" ({payment.Reference})")}", -payment.Amount);
            if (facts.Payments.Count == 0 && facts.Paid != 0)
                Add("Paid", -facts.Paid);
        }
        var paid = rows.ToList();
        rows.Clear();
        if (facts.CashRounding != 0)
            Add("Rounded to the smallest coin", facts.CashRounding);
        if (!credit || facts.CashRounding != 0)
            Add(credit ? "To give back" : "To pay", facts.Due, Composer.Large);
        return new Section(credit ? null : Payment(c, facts), new Stack(
            [
                new Rule(Palette.Line, 0.5f),
                new Spacer(Composer.Step),
                Sums(sums),
                new Spacer(Composer.Step),
                new Rule(Palette.Ink, 0.7f),
                new Spacer(Composer.Step),
                Sums(total),
                .. paid.Count == 0 ? Array.Empty<Block>() : [Sums(paid)],
                .. rows.Count == 0 ? Array.Empty<Block>() : [Sums(rows)],
                new Spacer(Composer.Step),
                new Rule(Palette.Ink, 0.7f),
                new Spacer(1.5f),
                new Rule(Palette.Ink, 0.7f),
            ], together: true), 204, 24);
    }

    private static Table Sums(IReadOnlyList<Row> rows) => new([new Column(1), new Column(0, 12)], null, rows, Palette.Line, padding: 1);

    /// <summary>EU Directive 2006/112/EC, art. 226 (11) and (11a), and EN 16931 BT-120: a rate of nothing says why.</summary>
    private static IEnumerable<Block> Wordings(Composer c, InvoiceFacts facts)
    {
        var wordings = facts.Taxes
            .Select(tax => tax.Category switch
            {
                TaxCategory.ReverseCharge => "Reverse charge" + (tax.Reason is null ? ": the customer accounts for the tax." : $": {tax.Reason}"),
                TaxCategory.IntraCommunity => "Intra-Community supply" + (tax.Reason is null ? ", exempt from tax." : $": {tax.Reason}"),
                TaxCategory.Export => "Export" + (tax.Reason is null ? ": no tax is charged." : $": {tax.Reason}"),
                TaxCategory.Exempt => "Exempt from tax" + (tax.Reason is null ? "." : $": {tax.Reason}"),
                TaxCategory.OutsideScope => "Outside the scope of tax" + (tax.Reason is null ? "." : $": {tax.Reason}"),
                _ => null,
            })
            .OfType<string>()
            .Distinct()
            .ToList();
        if (facts.PricesIncludeTax && facts.Taxes.Count > 0)
            wordings.Insert(0, "Prices include the tax shown.");
        if (facts.Rounding is { } rounding && facts.Taxes.Any(tax => tax.Percent > 0))
            wordings.Add(rounding == RoundingFacts.PerLine
                ? "Tax is rounded on each line and then added up."
                : "Tax is worked out on the sum of each rate and rounded there, once.");
        return wordings.Count == 0 ? [] : c.Section("Tax", [.. wordings.Select(wording => c.Text(wording, Composer.Body))]);
    }

    /// <summary>How to pay, beside the figures it is about.</summary>
    private static Stack Payment(Composer c, InvoiceFacts facts)
    {
        if (facts.Due <= 0)
            return new Stack([new Spacer(1), c.Text("Payment", Composer.Strong), c.Text("Paid in full. Thank you.", Composer.Body)], Composer.Step);
        var blocks = new List<Block> { new Spacer(1), c.Text("Payment", Composer.Strong) };
        if (facts.Terms is not null)
            blocks.Add(c.Text(facts.Terms, Composer.Body));
        blocks.Add(c.Pairs(
            [
                ("Payee", facts.Shop.Iban is null ? null : facts.Shop.Name),
                ("IBAN", facts.Shop.Iban is { } iban ? Grouped(iban) : null),
                ("BIC", facts.Shop.Bic),
                ("Reference", facts.PaymentReference is { } own ? Grouped(own) : facts.PaperNumber),
            ]));
        if (facts.Shop.BankDetails is not null)
            blocks.Add(c.Text(facts.Shop.BankDetails, Composer.Body));
        if (EpcPayload.For(facts) is { } payload)
            blocks.AddRange([new Spacer(Composer.Step), new Columns([(new QrBlock(payload, 74, Palette.Ink), 1), (c.Text("Scan to pay by SEPA transfer", Composer.SmallQuiet), 1.3f)], 12)]);
        return new Stack(blocks, Composer.Step);
    }

    internal static string Grouped(string iban)
    {
        var plain = iban.Replace(" ", "", StringComparison.Ordinal);
        return string.Join(' ', plain.Chunk(4).Select(group => new string(group)));
    }

    private static IEnumerable<Block> Notes(Composer c, InvoiceFacts facts)
    {
        List<string> notes = [.. facts.Notes];
        if (facts.WarrantyUntil is { } until)
            notes.Insert(0, $"Warranty on this work until {c.Formats.Day(until)}.");
        return notes.Count == 0 ? [] : c.Section("Notes", [.. notes.Select(note => c.Prose(note, Composer.Body))]);
    }
}
