using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>Random invoices: lines, rates, discounts, charges, currencies, roundings.</summary>
internal static class SomeInvoices
{
    private static readonly TaxKey[] Rates =
    [
        new(TaxCategory.Standard, "VAT", 21), new(TaxCategory.Standard, "Reduced", 5.5m), new(TaxCategory.Standard, "Sales tax", 8.875m),
        new(TaxCategory.Zero, "Zero", 0), new(TaxCategory.Exempt, "Exempt", 0),
    ];

    private static readonly Gen<InvoiceLine> Line =
        from thousandths in Gen.Choose(1, 40_000)
        from hundredths in Gen.Choose(0, 60_000)
        from rate in Gen.Elements(Rates)
        from percent in Gen.Elements<decimal?>(null, null, null, -10, -33.33m, 12.5m)
        from amount in Gen.Elements(0, 0, 0, -1, 3)
        select new InvoiceLine
        {
            Text = "Work",
            Kind = LineKind.Labour,
            Quantity = thousandths / 1000m,
            UnitPrice = hundredths / 100m,
            TaxName = rate.Name,
            TaxPercent = rate.Percent,
            TaxCategory = rate.Category,
            ChangePercent = percent,
            ChangeAmount = percent is null ? amount : 0,
        };

    private static readonly Gen<InvoiceChange> Change =
        from percent in Gen.Elements<decimal?>(null, -5, -12.345m, 7)
        from amount in Gen.Choose(-3, 12)
        select new InvoiceChange { Text = "Goodwill", Percent = percent, Amount = percent is null ? amount : 0 };

    private static readonly Gen<Invoice> Whole =
        from lines in Gen.NonEmptyListOf(Line)
        from changes in Change.ListOf()
        from currency in Gen.Elements("EUR", "EUR", "CHF", "JPY", "KWD")
        from includes in Gen.Elements(true, false)
        from registered in Gen.Elements(true, true, true, false)
        from rounding in Gen.Elements(TaxRounding.PerRate, TaxRounding.PerLine)
        select Made([.. lines.Take(12)], [.. changes.Take(3)], currency, includes, registered, rounding);

    public static Arbitrary<Invoice> Any => Whole.ToArbitrary();

    private static Invoice Made(List<InvoiceLine> lines, List<InvoiceChange> changes, string currency, bool includes, bool registered, TaxRounding rounding)
    {
        for (var index = 0; index < lines.Count; index++)
            lines[index].Position = index + 1;
        var invoice = new Invoice
        {
            Number = "I-2026-0001",
            IssuedAt = DateTimeOffset.UnixEpoch,
            Currency = currency,
            TaxRegistered = registered,
            PricesIncludeTax = includes,
            TaxRounding = rounding,
            CashStep = currency == "CHF" ? 0.05m : 0,
            Lines = lines,
            Changes = changes,
        };
        var totals = invoice.Totals();
        (invoice.Net, invoice.Tax, invoice.Gross, invoice.CashRounding) = (totals.Net, totals.Tax, totals.Gross, totals.CashRounding);
        return invoice;
    }
}
