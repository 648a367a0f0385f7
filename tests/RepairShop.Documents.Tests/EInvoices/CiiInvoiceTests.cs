using System.Text;
using System.Xml.Linq;
using RepairShop.Documents.EInvoices;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.EInvoices;

public class CiiInvoiceTests
{
    /// <summary>As with UBL, the files are left in the folder of REPAIRSHOP_EINVOICES_CII to be held against the official stylesheets.</summary>
    [Fact]
    public void Every_combination_says_term_by_term_what_its_UBL_says()
    {
        var folder = Environment.GetEnvironmentVariable("REPAIRSHOP_EINVOICES_CII");
        var count = 0;
        foreach (var (name, facts) in Combinations.All)
        {
            var invoice = EInvoiceBuilder.Of(facts);
            if (EInvoiceRules.Check(invoice).Count > 0)
                continue; // is issued on paper only
            count++;
            var cii = CiiInvoice.Write(invoice);
            Assert.Equal(Terms.OfUbl(UblInvoice.Write(invoice)), Terms.OfCii(cii));
            if (!string.IsNullOrEmpty(folder))
                File.WriteAllBytes(Path.Combine(Directory.CreateDirectory(folder).FullName, name + ".xml"), cii);
        }
        Assert.Equal(1952, count);
    }

    [Fact]
    public void All_terms_an_invoice_can_have_are_in_both()
    {
        var facts = Sample.Invoice with
        {
            Customer = Sample.Customer with { Company = "Halloway & Daughters", TaxNumber = "DE 123 456 789", Country = "DE" },
            Shop = Sample.Shop with { RegistrationNumber = "REG 774411", TaxNumber = "IE 1234567FA" },
            PaymentReference = "RF18539007547034",
            CashRounding = 0.02m,
            Notes = ["First note", "Second <note>"],
        };
        var terms = Terms.OfCii(CiiInvoice.Write(facts));
        Assert.Equal(Terms.OfUbl(UblInvoice.Write(facts)), terms);
        string[] expected =
        [
            "BT-1", "BT-2", "BT-3", "BT-5", "BT-9", "BT-20", "BT-22", "BT-24", "BT-27", "BT-30", "BT-31", "BT-35", "BT-40", "BT-41", "BT-42", "BT-43", "BT-44", "BT-48", "BT-50",
            "BT-55", "BT-56", "BT-57", "BT-58", "BT-72", "BT-81", "BT-83", "BT-84", "BT-85", "BT-86", "BT-106", "BT-107", "BT-109", "BT-110", "BT-112", "BT-113", "BT-114", "BT-115",
            "BG-20/1/Amount", "BG-20/1/Category", "BG-20/1/Rate", "BG-23/1/BT-116", "BG-23/1/BT-119", "BG-25/1/BT-126", "BG-25/1/BT-130", "BG-25/3/BT-154", "BG-25/3/BT-155", "BG-25/4/BT-146",
        ];
        Assert.Empty(expected.Except(terms.Keys));
        Assert.Equal("First note\nSecond <note>", terms["BT-22"].Split('\n', 2)[1]);
    }

    [Theory]
    [InlineData("S", "25", "1460.50", "365.13")] // ubl-tc434-example2, where rounding to even fails
    [InlineData("S", "6", "183.23", "10.99")] // ubl-tc434-example1
    [InlineData("S", "21", "908.91", "190.87")] // ubl-tc434-example8
    [InlineData("S", "25", "400", "100")] // Invoice-Min_content_with_VAT
    public void Published_check_totals_stand_in_it_to_the_cent(string code, string percent, string taxable, string tax)
    {
        // ConnectingEurope/eInvoicing-EN16931, ubl/examples and test/testfiles; the sums themselves are held in the Domain's tests.
        decimal Of(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
        var rate = Sample.Invoice.Taxes[0] with { Percent = Of(percent), Base = Of(taxable), Tax = Domain.Invoices.Totals.Round(Of(taxable) * Of(percent) / 100, 2) };
        var facts = Sample.Invoice with
        {
            Lines = [Sample.Invoice.Lines[0] with { Quantity = 1, UnitPrice = Of(taxable), Amount = Of(taxable), TaxPercent = Of(percent) }],
            Allowances = [],
            Net = rate.Base,
            Taxes = [rate],
            TaxTotal = rate.Tax,
            Total = rate.Base + rate.Tax,
            Paid = 0,
        };
        var terms = Terms.OfCii(CiiInvoice.Write(facts));
        Assert.Equal((code, Of(tax), Of(taxable), Of(taxable) + Of(tax)), (terms["BG-23/1/BT-118"], Of(terms["BG-23/1/BT-117"]), Of(terms["BT-109"]), Of(terms["BT-115"])));
    }

    [Fact]
    public void Where_several_deposits_are_taken_off_a_note_names_those_D16B_has_no_room_for()
    {
        var facts = Sample.Invoice with { Deposits = [new("I-2026-0001", new DateOnly(2026, 11, 2)), new("I-2026-0007", new DateOnly(2026, 11, 9))] };
        var terms = Terms.OfCii(CiiInvoice.Write(facts));
        Assert.Equal(("I-2026-0001", "2026-11-02"), (terms["BG-3/1/BT-25"], terms["BG-3/1/BT-26"]));
        Assert.DoesNotContain("BG-3/2/BT-25", terms.Keys);
        Assert.EndsWith("\nRefers to invoice I-2026-0007 of 2026-11-09 too", terms["BT-22"], StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_facts_give_the_same_bytes_without_a_byte_order_mark()
    {
        var bytes = CiiInvoice.Write(Sample.Invoice);
        Assert.Equal(bytes, CiiInvoice.Write((InvoiceFacts)PaperJson.Read(PaperKind.Invoice, PaperJson.Write(Sample.Invoice))));
        Assert.Equal((byte)'<', bytes[0]);
        Assert.DoesNotContain((byte)'\r', bytes);
    }

    [Fact]
    public void Characters_XML_cannot_hold_are_left_out_and_the_others_survive()
    {
        var facts = Sample.Invoice with { Customer = Sample.Customer with { Name = "A & <B> \u0001\uD83D Łukasz 😀" } };
        Assert.Equal("A & <B>  Łukasz 😀", Terms.OfCii(CiiInvoice.Write(facts))["BT-44"]);
        Assert.Equal("CrossIndustryInvoice", XDocument.Parse(Encoding.UTF8.GetString(CiiInvoice.Write(facts))).Root!.Name.LocalName);
    }
}
