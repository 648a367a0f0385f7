using System.Globalization;
using System.Xml;
using RepairShop.Domain.EInvoices;

namespace RepairShop.Documents.EInvoices;

/// <summary>Elements of UN/CEFACT's Cross Industry Invoice D16B; what is empty is left out.</summary>
internal sealed class CiiParts(XmlWriter xml, int digits)
{
    private const string Document = "urn:un:unece:uncefact:data:standard:CrossIndustryInvoice:100";
    private const string Aggregate = "urn:un:unece:uncefact:data:standard:ReusableAggregateBusinessInformationEntity:100";
    private const string Qualified = "urn:un:unece:uncefact:data:standard:QualifiedDataType:100";
    private const string Unqualified = "urn:un:unece:uncefact:data:standard:UnqualifiedDataType:100";

    public void Start()
    {
        xml.WriteStartElement("rsm", "CrossIndustryInvoice", Document);
        xml.WriteAttributeString("xmlns", "ram", null, Aggregate);
        xml.WriteAttributeString("xmlns", "qdt", null, Qualified);
        xml.WriteAttributeString("xmlns", "udt", null, Unqualified);
    }

    /// <summary>One of the three parts of the document.</summary>
    public void Part(string name, Action inside) => Within("rsm", name, Document, inside);

    public void Group(string name, Action inside) => Within("ram", name, Aggregate, inside);

    public void Text(string name, string? text, string? attribute = null, string? value = null)
    {
        if (!string.IsNullOrWhiteSpace(text))
            With("ram", name, Aggregate, EInvoiceXml.Allowed(text), attribute, value);
    }

    /// <summary>A group that holds nothing but one text; left out with it.</summary>
    public void Text(string group, string name, string? text)
    {
        if (!string.IsNullOrWhiteSpace(text))
            Group(group, () => Text(name, text));
    }

    public void Day(string name, DateOnly? day) => Day(name, "udt", Unqualified, day);

    /// <summary>The date of another paper has a type of its own.</summary>
    public void DayOfReference(string name, DateOnly? day) => Day(name, "qdt", Qualified, day);

    public void Number(string name, decimal? number) => Text(name, number is { } value ? EInvoiceXml.Plain(value) : null);

    public void Money(string name, decimal amount, string? currency = null) =>
        With("ram", name, Aggregate, EInvoiceXml.Money(amount, digits), currency is null ? null : "currencyID", currency);

    public void Quantity(string name, decimal quantity, string unit) => With("ram", name, Aggregate, EInvoiceXml.Plain(quantity), "unitCode", unit);

    public void Indicator(string name, bool value) => Group(name, () => With("udt", "Indicator", Unqualified, value ? "true" : "false"));

    /// <summary>BT-151 with BT-152, or BT-95 with BT-96; a breakdown's amounts stand between.</summary>
    public void Category(string name, ECategory tax, ETax? breakdown = null) => Group(name, () =>
    {
        if (breakdown is not null)
            Money("CalculatedAmount", breakdown.Amount);
        Text("TypeCode", "VAT");
        Text("ExemptionReason", breakdown?.Reason);
        if (breakdown is not null)
            Money("BasisAmount", breakdown.Base);
        Text("CategoryCode", tax.Code);
        Number("RateApplicablePercent", tax.Percent);
    });

    private void Day(string name, string prefix, string space, DateOnly? day)
    {
        if (day is { } value)
            Group(name, () => With(prefix, "DateTimeString", space, value.ToString("yyyyMMdd", CultureInfo.InvariantCulture), "format", "102"));
    }

    private void Within(string prefix, string name, string space, Action inside)
    {
        xml.WriteStartElement(prefix, name, space);
        inside();
        xml.WriteEndElement();
    }

    private void With(string prefix, string name, string space, string text, string? attribute = null, string? value = null) => Within(prefix, name, space, () =>
    {
        if (attribute is not null)
            xml.WriteAttributeString(attribute, value);
        xml.WriteString(text);
    });
}
