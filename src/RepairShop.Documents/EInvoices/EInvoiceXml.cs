using System.Globalization;
using System.Text;
using System.Xml;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Shop;

namespace RepairShop.Documents.EInvoices;

/// <summary>What the two syntaxes of EN 16931 share: how a file begins, and how numbers and texts are written.</summary>
internal static class EInvoiceXml
{
    /// <summary>BT-24.</summary>
    public const string Specification = "urn:cen.eu:en16931:2017";

    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] ToBytes(Action<XmlWriter> write)
    {
        using var stream = new MemoryStream();
        using (var xml = XmlWriter.Create(stream, new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true, NewLineChars = "\n", CloseOutput = false }))
            write(xml);
        return stream.ToArray();
    }

    /// <summary>Of an amount: the currency's own, two at most.</summary>
    public static int DigitsOf(EInvoice invoice) => Math.Min(2, Currency.MinorUnits(invoice.Currency));

    public static string Money(decimal amount, int digits) => amount.ToString($"F{digits}", CultureInfo.InvariantCulture);

    public static string Plain(decimal value) => value.ToString("0.############", CultureInfo.InvariantCulture);

    /// <summary>Without characters XML 1.0 can't hold.</summary>
    public static string Allowed(string text) => string.Concat(text.Where((sign, at) => XmlConvert.IsXmlChar(sign)
        || (char.IsHighSurrogate(sign) && at + 1 < text.Length && char.IsLowSurrogate(text[at + 1]))
        || (char.IsLowSurrogate(sign) && at > 0 && char.IsHighSurrogate(text[at - 1]))));
}
