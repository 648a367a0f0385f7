using System.Globalization;
using System.Xml;
using RepairShop.Domain.EInvoices;

namespace RepairShop.Documents.EInvoices;

/// <summary>Elements of UBL 2.1's two common namespaces; what is empty is left out.</summary>
internal sealed class UblParts(XmlWriter xml, string currency, int digits)
{
    private const string Basic = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2";
    private const string Aggregate = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2";

    public void Start(string root)
    {
        xml.WriteStartElement(root, $"urn:oasis:names:specification:ubl:schema:xsd:{root}-2");
        xml.WriteAttributeString("xmlns", "cac", null, Aggregate);
        xml.WriteAttributeString("xmlns", "cbc", null, Basic);
    }

    public void Group(string name, Action inside)
    {
        xml.WriteStartElement("cac", name, Aggregate);
        inside();
        xml.WriteEndElement();
    }

    public void Text(string name, string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return;
        xml.WriteElementString("cbc", name, Basic, EInvoiceXml.Allowed(text));
    }

    public void Day(string name, DateOnly? day) => Text(name, day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));

    public void Number(string name, decimal? number) => Text(name, number is { } value ? EInvoiceXml.Plain(value) : null);

    public void Money(string name, decimal amount) => With(name, EInvoiceXml.Money(amount, digits), "currencyID", currency);

    public void Price(decimal price) => With("PriceAmount", EInvoiceXml.Plain(price), "currencyID", currency);

    public void Quantity(string name, decimal quantity, string unit) => With(name, EInvoiceXml.Plain(quantity), "unitCode", unit);

    /// <summary>BT-118 with BT-119, and BT-120 in a breakdown.</summary>
    public void Category(string name, ECategory tax, string? reason = null) => Group(name, () =>
    {
        Text("ID", tax.Code);
        Number("Percent", tax.Percent);
        Text("TaxExemptionReason", reason);
        Vat();
    });

    public void Vat() => Group("TaxScheme", () => Text("ID", "VAT"));

    private void With(string name, string text, string attribute, string value)
    {
        xml.WriteStartElement("cbc", name, Basic);
        xml.WriteAttributeString(attribute, value);
        xml.WriteString(text);
        xml.WriteEndElement();
    }
}
