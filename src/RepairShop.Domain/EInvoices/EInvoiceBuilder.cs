using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.EInvoices;

/// <summary>The electronic invoice a paper's facts make: the same figures, with amounts of lines always without tax.</summary>
/// <remarks>
/// Where prices hold the tax, each line is taken apart and rounded; what that leaves over against the rate's net goes to its
/// largest line, so that BR-CO-10, BR-CO-13 and BR-S-08 hold to the last digit and the total stays what the paper says.
/// </remarks>
public static class EInvoiceBuilder
{
    private const int PriceDigits = 6;

    public static EInvoice Of(InvoiceFacts facts)
    {
        var taxes = TaxesOf(facts);
        var changes = facts.Allowances.Select(allowance => ChangeOf(facts, allowance)).ToList();
        var lines = Balanced(facts.Lines.Select((line, index) => LineOf(facts, line, index + 1)).ToList(), changes, taxes);
        var credit = facts.CreditsNumber is not null;
        return new EInvoice
        {
            Number = facts.PaperNumber,
            IssueDate = facts.IssueDate,
            TypeCode = credit ? "381" : facts.IsDeposit ? "386" : "380",
            Currency = facts.Currency,
            DueDate = facts.DueDate,
            Terms = Joined("; ", facts.Terms, facts.Shop.Iban is null && !credit ? facts.Shop.BankDetails?.ReplaceLineEndings(", ") : null),
            Notes = [.. About(facts), .. facts.Notes],
            Preceding = credit ? [(facts.CreditsNumber!, facts.CreditsIssueDate)] : [.. facts.Deposits.Select(deposit => (deposit.Number, (DateOnly?)deposit.IssueDate))],
            SupplyDate = facts.SupplyDate,
            Seller = SellerOf(facts, taxes),
            Buyer = BuyerOf(facts, taxes),
            Iban = credit ? "" : Shop.Iban.Plain(facts.Shop.Iban ?? ""),
            AccountName = facts.Shop.Name,
            Bic = facts.Shop.Bic ?? "",
            MeansCode = credit || facts.Shop.Iban is null ? "" : facts.Currency == "EUR" ? "58" : "30",
            PaymentReference = credit ? "" : facts.PaymentReference ?? facts.PaperNumber,
            Changes = changes,
            Lines = lines,
            Taxes = taxes,
            Sums = SumsOf(facts, lines, changes),
        };
    }

    /// <summary>UNCL5305.</summary>
    public static string CodeOf(TaxCategory category) => category switch
    {
        TaxCategory.Standard => "S",
        TaxCategory.Zero => "Z",
        TaxCategory.Exempt => "E",
        TaxCategory.ReverseCharge => "AE",
        TaxCategory.IntraCommunity => "K",
        TaxCategory.Export => "G",
        _ => "O",
    };

    /// <summary>UN/ECE Recommendation 20 for the units a workshop writes; C62, "one", for its own words.</summary>
    public static string UnitCodeOf(string unit) => unit.Trim().TrimEnd('.').ToUpperInvariant() switch
    {
        "H" or "HR" or "HRS" or "HOUR" or "HOURS" => "HUR",
        "MIN" => "MIN",
        "PC" or "PCS" or "PIECE" or "PIECES" => "H87",
        "SET" or "SETS" => "SET",
        "ML" => "MLT",
        "L" => "LTR",
        "G" => "GRM",
        "MM" => "MMT",
        "CM" => "CMT",
        "M" => "MTR",
        "KM" => "KMT",
        _ => "C62",
    };

    private static List<ETax> TaxesOf(InvoiceFacts facts) => facts.Taxes.Count == 0
        ? [new ETax(new ECategory("O", null), facts.Net, 0, "Not subject to VAT: the seller is not registered for tax")]
        : [.. facts.Taxes.GroupBy(tax => CategoryOf(tax.Category, tax.Percent)).Select(rate => new ETax(
            rate.Key, rate.Sum(tax => tax.Base), rate.Sum(tax => tax.Tax), string.Join("; ", rate.Select(tax => ReasonOf(tax)).OfType<string>().Distinct())))];

    private static ECategory CategoryOf(TaxCategory category, decimal percent) =>
        category == TaxCategory.OutsideScope ? new ECategory("O", null) : new ECategory(CodeOf(category == TaxCategory.Standard && percent == 0 ? TaxCategory.Zero : category), percent + 0.00m);

    private static string? ReasonOf(TaxTotalFacts tax) => tax.Category switch
    {
        TaxCategory.Standard or TaxCategory.Zero => null,
        TaxCategory.ReverseCharge => Joined(": ", "Reverse charge", tax.Reason),
        TaxCategory.Export => Joined(": ", "Export outside the EU", tax.Reason),
        TaxCategory.OutsideScope => Joined(": ", "Not subject to VAT", tax.Reason),
        _ => tax.Reason,
    };

    private static ECategory CategoryOf(InvoiceFacts facts, TaxCategory? category, decimal? percent) =>
        facts.Taxes.Count == 0 ? new ECategory("O", null) : CategoryOf(category ?? TaxKey.UsualCategory(percent ?? 0), percent ?? 0);

    private static decimal Net(InvoiceFacts facts, decimal amount, decimal? percent, int digits) =>
        facts.PricesIncludeTax && facts.Taxes.Count > 0 ? Totals.Round(amount / (1 + (percent ?? 0) / 100), digits) : amount;

    private static ELine LineOf(InvoiceFacts facts, LineFacts line, int number)
    {
        var digits = Currency.MinorUnits(facts.Currency);
        var price = Net(facts, line.UnitPrice, line.TaxPercent, PriceDigits);
        var amount = Net(facts, line.Amount, line.TaxPercent, digits);
        var full = Totals.Round(line.Quantity * price, digits);
        return new ELine(
            number.ToString(System.Globalization.CultureInfo.InvariantCulture), line.Text, line.Provenance ?? "", line.PartNumber ?? "",
            line.Quantity, UnitCodeOf(line.Unit), price,
            line.Change is null or 0 ? null : new EChange(line.Change < 0 ? "Discount" : "Surcharge", amount - full, line.ChangePercent is { } percent ? Math.Abs(percent) : null, full, null),
            amount, CategoryOf(facts, line.Category, line.TaxPercent));
    }

    private static EChange ChangeOf(InvoiceFacts facts, AllowanceFacts allowance)
    {
        var digits = Currency.MinorUnits(facts.Currency);
        return new EChange(
            allowance.Text, -Net(facts, allowance.Amount, allowance.TaxPercent, digits), allowance.Percent is { } percent ? Math.Abs(percent) : null,
            Net(facts, allowance.Base, allowance.TaxPercent, digits), CategoryOf(facts, allowance.Category, allowance.TaxPercent));
    }

    /// <summary>Moves what rounding left over to each rate's largest line.</summary>
    private static List<ELine> Balanced(List<ELine> lines, List<EChange> changes, List<ETax> taxes)
    {
        foreach (var tax in taxes)
        {
            var over = tax.Base - lines.Where(line => line.Tax == tax.Tax).Sum(line => line.Amount) - changes.Where(change => change.Tax == tax.Tax).Sum(change => change.Amount);
            if (over == 0 || lines.Where(line => line.Tax == tax.Tax).MaxBy(line => Math.Abs(line.Amount)) is not { } largest)
                continue;
            var change = largest.Change is { } own ? own with { Amount = own.Amount + over } : null;
            lines[lines.IndexOf(largest)] = largest with { Amount = largest.Amount + over, Change = change };
        }
        return lines;
    }

    private static ESums SumsOf(InvoiceFacts facts, List<ELine> lines, List<EChange> changes) => new(
        lines.Sum(line => line.Amount), -changes.Where(change => change.Amount < 0).Sum(change => change.Amount),
        changes.Where(change => change.Amount > 0).Sum(change => change.Amount), facts.Net, facts.TaxTotal, facts.Total,
        facts.Paid, facts.CashRounding, facts.Total - facts.Paid + facts.CashRounding);

    private static EParty SellerOf(InvoiceFacts facts, List<ETax> taxes)
    {
        var shop = facts.Shop;
        var outside = taxes.Any(tax => tax.Tax.Code == "O");
        return new EParty(
            shop.Name, facts.IssuedBy, AddressOf(shop.Address, shop.AddressLines, shop.Country),
            outside || shop.TaxNumber is null ? "" : TaxNumbers.WithCountry(shop.TaxNumber, shop.Country),
            shop.RegistrationNumber ?? (outside ? shop.TaxNumber ?? "" : ""), shop.Email ?? "", shop.Phone ?? "");
    }

    private static EParty BuyerOf(InvoiceFacts facts, List<ETax> taxes)
    {
        var customer = facts.Customer;
        var company = customer.Company;
        return new EParty(
            company ?? customer.Name, company is null ? "" : customer.Name, AddressOf(customer.Address, customer.AddressLines, customer.Country ?? ""),
            customer.TaxNumber is null || taxes.Any(tax => tax.Tax.Code == "O") ? "" : TaxNumbers.WithCountry(customer.TaxNumber, customer.Country ?? ""),
            "", customer.Email ?? "", customer.Phone ?? "");
    }

    private static EAddress AddressOf(AddressFacts? address, IReadOnlyList<string> lines, string country) => address is null
        ? new EAddress(lines.Count > 0 ? lines[0] : "", lines.Count > 2 ? string.Join(", ", lines.Skip(1).SkipLast(1)) : "", lines.Count > 1 ? lines[^1] : "", "", "", country)
        : new EAddress(address.Street, address.Street2, address.City, address.PostalCode, address.Region, country);

    private static IEnumerable<string> About(InvoiceFacts facts)
    {
        var camera = facts.Camera;
        yield return $"Repair {facts.RepairNumber}: {Joined(" ", camera.Maker, camera.Model, camera.Variant)}{(camera.BodySerial is null ? "" : $", body no. {camera.BodySerial}")}";
        if (facts.CreditReason is { } reason)
            yield return reason;
    }

    private static string? Joined(string between, params string?[] parts)
    {
        var filled = parts.Where(part => !string.IsNullOrWhiteSpace(part)).ToList();
        return filled.Count == 0 ? null : string.Join(between, filled);
    }
}
