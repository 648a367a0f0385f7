using RepairShop.Documents.Paperwork;
using RepairShop.Documents.Tests.EInvoices;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>
/// What the law asks an invoice to say, item by item, looked for on the printed paper. Items about what a repair shop does not do
/// (self-billing, new means of transport, travel agents, margin schemes, tax representatives) have no place on its papers.
/// </summary>
public class LegalContentTests
{
    private static string Print(InvoiceFacts facts) =>
        ReadBack.PdfToText(PaperRenderer.Render(facts.CreditsNumber is null ? PaperKind.Invoice : PaperKind.CreditNote, facts)).Replace('\u00A0', ' ');

    private static InvoiceFacts Facts(string profile, string paper = "invoice", string discount = "none", string currency = "EUR") =>
        Combinations.Facts(profile, discount, paper, currency, TaxRounding.PerRate)!;

    /// <summary>Council Directive 2006/112/EC, article 226, points (1) to (11a).</summary>
    [Theory]
    [InlineData("(1) date of issue", "Issued 24 November 2026")]
    [InlineData("(2) sequential number", "I-2026-0042")]
    [InlineData("(3) supplier's VAT number", "Tax no. IE 1234567FA")]
    [InlineData("(5) full name and address of the supplier", "14 Tern Street")]
    [InlineData("(5) full name of the customer", "Ines Halloway")]
    [InlineData("(5) address of the customer", "Flat 3, Old Customs House")]
    [InlineData("(6) nature of the services and goods", "Shutter out, cleaned, lubricated & timed")]
    [InlineData("(6) quantity", "3.25 h")]
    [InlineData("(7) date of supply", "Supplied 23 November 2026")]
    [InlineData("(8) unit price without VAT", "58.37")]
    [InlineData("(8) taxable amount per rate", "VAT 23 % on 199.65")]
    [InlineData("(8) discounts", "Goodwill, VAT, 7.5 % of 199.65")]
    [InlineData("(9) VAT rate", "23 %")]
    [InlineData("(10) VAT amount payable", "€45.92")]
    public void Directive_2006_112_EC_article_226(string point, string words)
    {
        var facts = Facts("vat-net", discount: point.StartsWith("(8) discounts", StringComparison.Ordinal) ? "document-percent" : "none");
        Assert.True(Print(facts).Contains(words), $"Article 226 {point}: “{words}” is not on the paper.");
    }

    [Theory]
    [InlineData("reverse-charge", "(4) the customer's VAT number", "DE 123 456 789")]
    [InlineData("reverse-charge", "(11a) the words", "Reverse charge")]
    [InlineData("exempt", "(11) reference to the exemption", "Exempt under the small business scheme")]
    [InlineData("export", "(11) indication that the supply is exempt", "Export")]
    public void Directive_2006_112_EC_article_226_where_no_tax_is_charged(string profile, string point, string words) =>
        Assert.True(Print(Facts(profile)).Contains(words), $"Article 226 {point}: “{words}” is not on the paper.");

    [Fact]
    public void Directive_2006_112_EC_article_226_7a_cash_accounting() =>
        Assert.Contains("Cash accounting", Print(Facts("vat-net") with { Notes = ["Cash accounting"] }));

    [Fact]
    public void Directive_2006_112_EC_article_219_a_credit_note_refers_to_the_invoice_it_amends() =>
        Assert.Contains("Invoice I-2026-0042 of 24 November 2026", Print(Facts("vat-net", "credit")));

    private static readonly ShopFacts British = Sample.Shop with { Country = "GB", TaxNumber = "GB 123 4567 82", Currency = "GBP", Locale = "en-GB", TimeZone = "Europe/London" };

    /// <summary>The Value Added Tax Regulations 1995 (SI 1995/2518), regulation 14 (1).</summary>
    [Theory]
    [InlineData("(a) identifying number", "I-2026-0042")]
    [InlineData("(b) time of supply", "Supplied 23 November 2026")]
    [InlineData("(c) date of issue", "Issued 24 November 2026")]
    [InlineData("(d) name, address and registration number", "Tax no. GB 123 4567 82")]
    [InlineData("(e) name and address of the customer", "Ines Halloway")]
    [InlineData("(g) description", "Counter click spring <long leg>")]
    [InlineData("(h) quantity, rate and amount without VAT of each", "1 pcs 9.95 23 % 9.95")]
    [InlineData("(i) total without VAT", "VAT 23 % on 199.65")]
    [InlineData("(l) VAT in sterling", "£45.92")]
    [InlineData("(m) unit price", "58.37")]
    public void United_Kingdom_VAT_Regulations_1995_regulation_14(string point, string words) =>
        Assert.True(Print(Facts("vat-net", currency: "GBP") with { Shop = British }).Contains(words), $"Regulation 14 {point}: “{words}” is not on the paper.");

    /// <summary>Regulation 16A, a simplified invoice: a full one says all of it too.</summary>
    [Theory]
    [InlineData("(a) name, address and registration number", "Tax no. GB 123 4567 82")]
    [InlineData("(b) time of supply", "Supplied 23 November 2026")]
    [InlineData("(c) description", "Cleaning and lubricants")]
    [InlineData("(d) total with VAT", "Total £250.10")]
    [InlineData("(e) for each rate the gross and the rate", "Reduced 9 %")]
    public void United_Kingdom_VAT_Regulations_1995_regulation_16A(string point, string words) =>
        Assert.True(Print(Facts("vat-net", currency: "GBP") with { Shop = British }).Contains(words), $"Regulation 16A {point}: “{words}” is not on the paper.");

    [Theory]
    [InlineData(250.00, false)]
    [InlineData(250.01, true)]
    public void Regulation_16A_ends_at_250_pounds_then_the_customers_address_is_asked_for(double total, bool asked)
    {
        var facts = Facts("vat-net", currency: "GBP") with { Shop = British, Total = (decimal)total, Customer = Sample.Customer with { AddressLines = [] } };
        Assert.Equal(asked, LegalContent.Missing(facts).Any(item => item.Law.Contains("reg. 14 (1) (e)")));
    }

    private static readonly ShopFacts Australian = Sample.Shop with { Country = "AU", TaxNumber = "51 824 753 556", Currency = "AUD", Locale = "en-AU", TimeZone = "Australia/Sydney", Iban = null, Bic = null };

    private static InvoiceFacts Gst() => Facts("gst-inclusive") with { Shop = Australian, Currency = "AUD" };

    /// <summary>A New Tax System (Goods and Services Tax) Act 1999, section 29-70 (1).</summary>
    [Theory]
    [InlineData("(c)(i) the supplier's identity", "Tern Street Cameras")]
    [InlineData("(c)(i) the supplier's ABN", "ABN 51 824 753 556")]
    [InlineData("(c)(ii) the recipient's identity", "Ines Halloway")]
    [InlineData("(c)(iii) what is supplied", "Counter click spring <long leg>")]
    [InlineData("(c)(iii) its quantity and price", "3.25 h 58.37")]
    [InlineData("(c)(iv) the extent to which each supply is taxable", "10 %")]
    [InlineData("(c)(v) date of issue", "Issued 24 November 2026")]
    [InlineData("(c)(vi) the GST payable", "GST 10 % on")]
    [InlineData("(d) that it is a tax invoice", "Tax invoice")]
    public void Australia_GST_Act_section_29_70(string point, string words) =>
        Assert.True(Print(Gst()).Contains(words), $"Section 29-70 {point}: “{words}” is not on the paper.");

    [Theory]
    [InlineData(82.50, false)]
    [InlineData(82.51, true)]
    public void Australia_asks_for_a_tax_invoice_above_82_50_with_GST(double total, bool asked) =>
        Assert.Equal(asked, LegalContent.AustraliaAsksForTaxInvoice((decimal)total));

    [Theory]
    [InlineData(999.99, false)]
    [InlineData(1000, true)]
    public void Australia_names_the_buyer_from_1000(double total, bool asked)
    {
        var facts = Gst() with { Total = (decimal)total, Customer = Sample.Customer with { AddressLines = [], TaxNumber = null } };
        Assert.Equal(asked, LegalContent.Missing(facts).Any(item => item.What.Contains("$1,000")));
        Assert.Empty(LegalContent.Missing(facts with { Customer = facts.Customer with { TaxNumber = "53 004 085 616" } }));
    }

    [Fact]
    public void A_GST_of_a_tenth_is_exactly_one_eleventh_of_the_total_to_the_cent() =>
        Assert.Equal(Totals.Round(Gst().Total / 11, 2), Gst().TaxTotal);

    /// <summary>California Code of Regulations, title 16, section 2725: the invoice of a service dealer.</summary>
    [Theory]
    [InlineData("business name and address", "14 Tern Street")]
    [InlineData("telephone", "020 7946 0187")]
    [InlineData("registration number", "Reg. no. REG 774411")]
    [InlineData("date", "Issued 24 November 2026")]
    [InlineData("customer", "Ines Halloway")]
    [InlineData("make and model", "Orrevale Pelter IIb")]
    [InlineData("serial number", "218446")]
    [InlineData("the customer's statement of the problem", "Slow speeds hang")]
    [InlineData("parts apart from labour", "Parts")]
    [InlineData("labour", "Labour")]
    [InlineData("total", "Total €")]
    [InlineData("who issued it", "Issued by Rowan Teague")]
    public void California_16_CCR_2725_the_repair_invoice(string item, string words) =>
        Assert.True(Print(Facts("parts-only")).Contains(words), $"16 CCR 2725, {item}: “{words}” is not on the paper.");

    [Fact]
    public void California_16_CCR_2725_used_and_rebuilt_parts_are_said_to_be_so() => Assert.Contains("donor camera", Print(Sample.Invoice));

    /// <summary>Section 2721: the receipt handed out with the tag.</summary>
    [Theory]
    [InlineData("Tern Street Cameras")]
    [InlineData("020 7946 0187")]
    [InlineData("3 November 2026")]
    [InlineData("Orrevale Pelter IIb")]
    [InlineData("218446")]
    [InlineData("Slow speeds hang")]
    [InlineData("Ines Halloway")]
    [InlineData("Reg. no. REG 774411")]
    [InlineData("Estimate first; nothing is done before you say yes.")]
    public void California_16_CCR_2721_the_receipt(string words)
    {
        var tag = Sample.ClaimTag with { Shop = Sample.Shop with { RegistrationNumber = "REG 774411" } };
        Assert.Contains(words, ReadBack.PdfToText(PaperRenderer.Render(PaperKind.ClaimTagPage, tag)).Replace('\u00A0', ' '));
    }

    /// <summary>Section 2722: the estimate; and an oral consent is noted on the invoice.</summary>
    [Theory]
    [InlineData("Labour")]
    [InlineData("Parts")]
    [InlineData("We will not charge more than €411.44 without asking you first.")]
    [InlineData("VAT 23 %")]
    public void California_16_CCR_2722_the_estimate(string words) =>
        Assert.Contains(words, ReadBack.PdfToText(PaperRenderer.Render(PaperKind.Estimate, Sample.Estimate)).Replace('\u00A0', ' '));

    [Fact]
    public void California_16_CCR_2722_consent_is_noted_with_who_when_how_and_who_received_it() =>
        Assert.Contains("approved up to €411.44 on 5 November 2026 by e-mail, received by Rowan Teague", Print(Sample.Invoice));
}
