using System.Globalization;
using System.Text;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;

namespace RepairShop.Documents.Paperwork;

/// <summary>
/// The text of a SEPA credit transfer's QR code (European Payments Council, EPC069-12, version 2.1): UTF-8, line feeds, nothing
/// after the last filled element.
/// </summary>
internal static class EpcPayload
{
    /// <summary>331 bytes is the most a code of the largest size allowed (version 13, level M) holds.</summary>
    private const int MostBytes = 331;

    /// <summary>Countries of the SEPA scheme as account numbers name them (EPC409-09; from memory).</summary>
    private static readonly HashSet<string> Countries =
    [
        .. "AD AL AT BE BG CH CY CZ DE DK EE ES FI FR GB GI GR HR HU IE IS IT LI LT LU LV MC MD ME MK MT NL NO PL PT RO RS SE SI SK SM VA".Split(' '),
    ];

    /// <summary>For an invoice in euro with something to pay, to an account in SEPA; null for any other.</summary>
    public static string? For(InvoiceFacts facts) => For(facts.Shop, facts.Currency, facts.Due, facts.PaymentReference ?? facts.PaperNumber);

    /// <summary>For a reminder of one invoice, fees and all; several are paid with their numbers.</summary>
    public static string? For(ReminderFacts facts) =>
        facts.Lines.Count == 1 ? For(facts.Shop, facts.Currency, facts.Total, facts.PaymentReference ?? facts.Lines[0].Number) : null;

    private static string? For(ShopFacts shop, string currency, decimal due, string reference)
    {
        var iban = shop.Iban?.Replace(" ", "", StringComparison.Ordinal).ToUpperInvariant();
        if (iban is not { Length: > 4 } || !Countries.Contains(iban[..2]) || currency != "EUR" || due is < 0.01m or > 999999999.99m)
            return null;
        var structured = CreditorReference.IsValid(reference);
        var payload = Build(shop.Bic, shop.Name, iban, due, null, structured ? reference : null, structured ? null : reference, null);
        return Encoding.UTF8.GetByteCount(payload) <= MostBytes ? payload : null;
    }

    /// <param name="bic">Version 001 with it, 002 without.</param>
    /// <param name="name">Beneficiary, cut at 70 characters.</param>
    /// <param name="iban">Without spaces.</param>
    /// <param name="euros">Amount.</param>
    /// <param name="purpose">Up to four letters.</param>
    /// <param name="reference">Structured, ISO 11649; then there is no <paramref name="remittance"/>.</param>
    /// <param name="remittance">Unstructured text, cut at 140 characters.</param>
    /// <param name="information">To the payer, cut at 70 characters.</param>
    public static string Build(
        string? bic, string name, string iban, decimal euros, string? purpose, string? reference, string? remittance, string? information)
    {
        if (reference is not null && remittance is not null)
            throw new ArgumentException("A credit transfer has a structured reference or a text, never both.", nameof(remittance));
        string?[] lines =
        [
            "BCD", string.IsNullOrWhiteSpace(bic) ? "002" : "001", "1", "SCT", Line(bic, 11), Line(name, 70), iban,
            "EUR" + euros.ToString("0.##", CultureInfo.InvariantCulture), Line(purpose, 4), Line(reference, 35), Line(remittance, 140), Line(information, 70),
        ];
        return string.Join('\n', lines).TrimEnd('\n');
    }

    private static string Line(string? text, int most)
    {
        var line = new string([.. (text ?? "").Where(c => !char.IsControl(c))]).Trim();
        return line.Length <= most ? line : line[..most];
    }
}
