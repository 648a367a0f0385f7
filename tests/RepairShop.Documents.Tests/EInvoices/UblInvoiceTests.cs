using System.Text;
using System.Xml.Linq;
using RepairShop.Documents.EInvoices;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.EInvoices;

public class UblInvoiceTests
{
    private static readonly XNamespace Cbc = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2";
    private static readonly XNamespace Cac = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2";

    /// <summary>
    /// The official stylesheets are not part of this project; with REPAIRSHOP_EINVOICES set, the files are left in that folder to be
    /// held against them.
    /// </summary>
    [Fact]
    public void Every_combination_of_profile_discount_deposit_correction_and_currency_breaks_no_rule_and_is_well_formed()
    {
        var folder = Environment.GetEnvironmentVariable("REPAIRSHOP_EINVOICES");
        var broken = new List<string>();
        var count = 0;
        foreach (var (name, facts) in Combinations.All)
        {
            count++;
            var invoice = EInvoiceBuilder.Of(facts);
            var faults = EInvoiceRules.Check(invoice);
            broken.AddRange(faults.Select(fault => $"{name}: {fault.Code}"));
            if (faults.Count > 0)
                continue; // is issued on paper only
            var bytes = UblInvoice.Write(invoice);
            Assert.Equal(facts.PaperNumber, XDocument.Parse(Encoding.UTF8.GetString(bytes)).Root!.Element(Cbc + "ID")!.Value);
            if (!string.IsNullOrEmpty(folder))
                File.WriteAllBytes(Path.Combine(Directory.CreateDirectory(folder).FullName, name + ".xml"), bytes);
        }
        Assert.Equal(1968, count);
        // Rounding on each line can move a rate's tax away from its base times the rate: that is told by name, and nothing else.
        Assert.All(broken, name => Assert.Matches("PerLine: (BR-CO-17|BR-S-09)$", name));
        Assert.InRange(broken.Count, 1, 60);
    }

    [Fact]
    public void The_same_facts_give_the_same_bytes_without_a_byte_order_mark()
    {
        var bytes = UblInvoice.Write(Sample.Invoice);
        Assert.Equal(bytes, UblInvoice.Write((InvoiceFacts)PaperJson.Read(PaperKind.Invoice, PaperJson.Write(Sample.Invoice))));
        Assert.Equal((byte)'<', bytes[0]);
        Assert.DoesNotContain((byte)'\r', bytes);
    }

    [Fact]
    public void An_invoice_says_what_the_paper_says()
    {
        var root = XDocument.Parse(Encoding.UTF8.GetString(UblInvoice.Write(Sample.Invoice))).Root!;
        Assert.Equal("Invoice", root.Name.LocalName);
        string Text(XElement under, string name) => under.Element(Cbc + name)?.Value ?? "";
        Assert.Equal(("2026-0312", "2026-11-24", "380", "EUR", "2026-12-08"),
            (Text(root, "ID"), Text(root, "IssueDate"), Text(root, "InvoiceTypeCode"), Text(root, "DocumentCurrencyCode"), Text(root, "DueDate")));
        var sums = root.Element(Cac + "LegalMonetaryTotal")!;
        Assert.Equal(("291.00", "281.00", "345.63", "10.00", "100.00", "245.63"), (
            Text(sums, "LineExtensionAmount"), Text(sums, "TaxExclusiveAmount"), Text(sums, "TaxInclusiveAmount"), Text(sums, "AllowanceTotalAmount"),
            Text(sums, "PrepaidAmount"), Text(sums, "PayableAmount")));
        var line = root.Elements(Cac + "InvoiceLine").First();
        Assert.Equal(("3.25", "HUR", "188.50"), (Text(line, "InvoicedQuantity"), line.Element(Cbc + "InvoicedQuantity")!.Attribute("unitCode")!.Value, Text(line, "LineExtensionAmount")));
    }

    [Fact]
    public void A_credit_note_names_the_invoice_it_takes_back()
    {
        var root = XDocument.Parse(Encoding.UTF8.GetString(UblInvoice.Write(Sample.CreditNote))).Root!;
        Assert.Equal("CreditNote", root.Name.LocalName);
        Assert.Equal("381", root.Element(Cbc + "CreditNoteTypeCode")!.Value);
        Assert.Equal("2026-0312", root.Element(Cac + "BillingReference")!.Element(Cac + "InvoiceDocumentReference")!.Element(Cbc + "ID")!.Value);
        Assert.Empty(root.Elements(Cac + "PaymentMeans"));
    }

    [Fact]
    public void Characters_XML_cannot_hold_are_left_out_and_the_others_survive()
    {
        var facts = Sample.Invoice with { Customer = Sample.Customer with { Name = "A & <B> \u0001\uD83D Łukasz 😀" } };
        var root = XDocument.Parse(Encoding.UTF8.GetString(UblInvoice.Write(facts))).Root!;
        Assert.Contains(root.Descendants(Cbc + "RegistrationName"), name => name.Value == "A & <B>  Łukasz 😀");
    }

    [Fact]
    public void Three_decimals_are_refused_by_name_because_the_standard_has_two()
    {
        var facts = Sample.Invoice with { Currency = "KWD", Net = 281.001m, Total = 345.631m };
        Assert.Contains(EInvoiceRules.Check(EInvoiceBuilder.Of(facts)), fault => fault.Code == "BR-DEC-12");
    }
}
