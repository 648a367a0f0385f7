using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;

namespace RepairShop.Documents.Tests.EInvoices;

/// <summary>Invoices in every combination of profile, rounding, discount, deposit, correction and currency, made by the program's own rules.</summary>
internal static class Combinations
{
    public static readonly string[] Profiles =
        ["vat-net", "vat-gross", "gst-inclusive", "parts-only", "zero-rate", "exempt-rate", "not-registered", "export", "reverse-charge", "exempt"];

    public static readonly string[] Discounts = ["none", "line-percent", "line-amount", "line-charge", "document-percent", "document-amount", "document-charge", "all"];

    public static readonly string[] Papers = ["invoice", "deposit", "final", "credit", "credit-line", "credit-amount"];

    public static readonly string[] Currencies = ["EUR", "GBP", "CHF", "JPY"];

    public static IEnumerable<(string Name, InvoiceFacts Facts)> All =>
        from profile in Profiles
        from discount in Discounts
        from paper in Papers
        from currency in Currencies
        from rounding in Enum.GetValues<TaxRounding>()
        where rounding == TaxRounding.PerRate || profile is "vat-net" or "vat-gross"
        let facts = Facts(profile, discount, paper, currency, rounding)
        where facts is not null
        select ($"{profile}-{discount}-{paper}-{currency}-{rounding}", facts);

    /// <summary>Null where the combination means nothing: a deposit has no discount.</summary>
    public static InvoiceFacts? Facts(string profile, string discount, string paper, string currency, TaxRounding rounding)
    {
        if (paper == "deposit")
            return discount == "none" ? Facts(Deposit(profile, currency, rounding), profile, null) : null;
        var invoice = Invoice(profile, discount, currency, rounding);
        if (paper == "invoice")
            return Facts(invoice, profile, null);
        if (paper == "final")
        {
            invoice.Lines.AddRange(Deposits.LinesFor([Issued(Deposit(profile, currency, rounding))], invoice.PricesIncludeTax));
            return Facts(invoice, profile, null) with { Deposits = [new("I-2026-0001", new DateOnly(2026, 11, 2))] };
        }
        Issued(invoice);
        var left = CreditLeft.Of(invoice, []);
        var rate = left.Rates.MaxBy(part => part.Net)!;
        var request = paper switch
        {
            "credit" => CreditRequest.Everything,
            "credit-line" => new CreditRequest([new CreditedLine(invoice.Lines[0].Id, 1)], []),
            _ => new CreditRequest([], [new CreditedAmount(rate.Key, Totals.Round(CreditLeft.InPrices(rate, invoice.PricesIncludeTax) / 3, Currency.MinorUnits(currency)))]),
        };
        var note = Copy(invoice, CreditDrafting.LinesOf(invoice, left, request).Value!, request.IsEverything);
        return Facts(note, profile, left.Limit(note).Value);
    }

    private static Invoice Invoice(string profile, string discount, string currency, TaxRounding rounding)
    {
        var zero = currency == "JPY";
        var invoice = Begun(profile, currency, rounding);
        invoice.CashStep = currency == "CHF" ? 0.05m : 0;
        invoice.Lines =
        [
            Line(profile, 1, LineKind.Labour, "Shutter out, cleaned, lubricated & timed", 3.25m, "h", zero ? 5800 : 58.37m),
            Line(profile, 2, LineKind.Part, "Counter click spring <long leg>", 1, "pcs", zero ? 995 : 9.95m),
            Line(profile, 3, LineKind.Material, "Cleaning and lubricants", 12.5m, "ml", zero ? 33 : 0.333m),
        ];
        var all = discount == "all";
        if (all || discount == "line-percent")
            invoice.Lines[0].ChangePercent = -12.5m;
        if (all || discount == "line-amount")
            invoice.Lines[1].ChangeAmount = zero ? -100 : -1.11m;
        if (all || discount == "line-charge")
            invoice.Lines[2].ChangeAmount = zero ? 7 : 0.07m;
        if (all || discount == "document-percent")
            invoice.Changes.Add(new InvoiceChange { Text = "Goodwill", Percent = -7.5m });
        if (all || discount == "document-amount")
            invoice.Changes.Add(new InvoiceChange { Text = "Voucher", Amount = zero ? -1000 : -10.01m });
        if (all || discount == "document-charge")
            invoice.Changes.Add(new InvoiceChange { Text = "Insured post", Amount = zero ? 1250 : 12.49m });
        return invoice;
    }

    private static Invoice Deposit(string profile, string currency, TaxRounding rounding)
    {
        var invoice = Begun(profile, currency, rounding);
        (invoice.Basis, invoice.Number) = (InvoiceBasis.Deposit, "I-2026-0001");
        invoice.Lines = [Line(profile, 1, LineKind.Part, "Deposit for the repair", 1, "pcs", currency == "JPY" ? 500 : 5.03m)];
        return invoice;
    }

    private static Invoice Begun(string profile, string currency, TaxRounding rounding) => new()
    {
        Number = "I-2026-0042",
        Currency = currency,
        TaxRegistered = profile != "not-registered",
        Treatment = Terms(profile).Treatment,
        PricesIncludeTax = profile is "vat-gross" or "gst-inclusive",
        TaxRounding = rounding,
    };

    private static InvoiceLine Line(string profile, int position, LineKind kind, string text, decimal quantity, string unit, decimal price)
    {
        var usual = (profile, position) switch
        {
            ("gst-inclusive", _) => new TaxKey(TaxCategory.Standard, "GST", 10),
            ("parts-only", _) => new TaxKey(TaxCategory.Standard, "Sales tax", 8.875m),
            ("zero-rate", 2) => new TaxKey(TaxCategory.Zero, "Zero", 0),
            ("exempt-rate", 3) => new TaxKey(TaxCategory.Exempt, "Exempt rate", 0),
            (_, 3) => new TaxKey(TaxCategory.Standard, "Reduced", 9),
            _ => new TaxKey(TaxCategory.Standard, "VAT", 23),
        };
        var key = Terms(profile).Fixed(kind == LineKind.Labour) ?? usual;
        return new InvoiceLine
        {
            Position = position,
            Kind = kind,
            Text = text,
            Quantity = quantity,
            Unit = unit,
            UnitPrice = price,
            TaxName = key.Name,
            TaxPercent = key.Percent,
            TaxCategory = key.Category,
        };
    }

    private static TaxTerms Terms(string profile) => TaxTerms.Of(new TaxProfile
    {
        Name = profile,
        TaxesLabour = profile != "parts-only",
        Reason = profile == "exempt" ? "Exempt under the small business scheme" : "",
        Treatment = profile switch
        {
            "not-registered" => TaxTreatment.NotRegistered,
            "export" => TaxTreatment.Export,
            "reverse-charge" => TaxTreatment.ReverseCharge,
            "exempt" => TaxTreatment.Exempt,
            _ => TaxTreatment.Charged,
        },
    });

    private static Invoice Issued(Invoice invoice)
    {
        var totals = invoice.Totals();
        (invoice.IssuedAt, invoice.Net, invoice.Tax, invoice.Gross, invoice.CashRounding) =
            (new DateTimeOffset(2026, 11, 2, 9, 0, 0, TimeSpan.Zero), totals.Net, totals.Tax, totals.Gross, totals.CashRounding);
        return invoice;
    }

    private static Invoice Copy(Invoice invoice, List<InvoiceLine> lines, bool whole) => new()
    {
        Kind = InvoiceKind.CreditNote,
        Number = "C-2026-0003",
        CreditsId = invoice.Id,
        Currency = invoice.Currency,
        TaxRegistered = invoice.TaxRegistered,
        Treatment = invoice.Treatment,
        PricesIncludeTax = invoice.PricesIncludeTax,
        TaxRounding = invoice.TaxRounding,
        Lines = lines,
        Changes = whole ? invoice.Changes : [],
    };

    private static InvoiceFacts Facts(Invoice invoice, string profile, Totals? limited)
    {
        var totals = limited ?? invoice.Totals();
        invoice.Taxes = [.. totals.Taxes.Select(tax => new InvoiceTax
        {
            Category = tax.Category,
            Name = tax.Name,
            Percent = tax.Percent,
            Reason = Terms(profile).ReasonFor(tax.Category) ?? (tax.Category == TaxCategory.Exempt ? "Exempt by law" : ""),
        })];
        var credit = invoice.Kind == InvoiceKind.CreditNote;
        var like = credit ? Sample.CreditNote : Sample.Invoice;
        return InvoiceFigures.Fill(
            like with
            {
                PaperNumber = invoice.Number!,
                Currency = invoice.Currency,
                Payments = [],
                CreditsNumber = credit ? "I-2026-0042" : null,
                Customer = Sample.Customer with { Country = profile is "export" ? "JP" : "DE", TaxNumber = profile == "reverse-charge" ? "DE 123 456 789" : null },
                PaymentReference = CreditorReference.Of(invoice.Number!),
                Shop = Sample.Shop with { RegistrationNumber = "REG 774411", TaxNumber = profile == "not-registered" ? null : "IE 1234567FA" },
            },
            invoice, totals);
    }
}
