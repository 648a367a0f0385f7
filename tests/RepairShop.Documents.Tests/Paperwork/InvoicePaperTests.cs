using RepairShop.Documents.Layout;
using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

public class InvoicePaperTests
{
    private static string Text(InvoiceFacts facts, PaperKind kind = PaperKind.Invoice) => ReadBack.PdfToText(PaperRenderer.Render(kind, facts));

    [Fact]
    public void It_shows_lines_totals_tax_payments_and_what_is_due()
    {
        var text = Text(Sample.Invoice);
        foreach (var expected in (string[])
        [
            "Shutter out, cleaned, lubricated, timed 3.25 h 58.00 23 % 188.50", "no. TA0-114 · donor camera", "Sum of lines €291.00", "Goodwill for the long wait −€10.00",
            "Net €281.00", "VAT 23 % on 281.00 €64.63", "Total €345.63", "Paid 5 November 2026, card (deposit) −€100.00", "To pay €245.63",
            "Issued 24 November 2026", "Supplied 23 November 2026", "Due 8 December 2026", "BE68 5390 0754 7034", "EXAMBEB1", "Reference 2026-0312",
            "approved up to €411.44 on 5 November 2026", "Warranty on this work until 23 November 2027.", "Amount, EUR",
        ])
            Assert.Contains(expected, text.Replace('\u00A0', ' '));
    }

    [Fact]
    public void Three_hundred_lines_go_over_pages_with_the_head_repeated_and_no_line_lost()
    {
        var paper = PaperRenderer.Render(PaperKind.Invoice, Sample.InvoiceOf(300));
        var pages = ReadBack.Pages(paper);
        Assert.InRange(pages.Count, 8, 16);
        var all = string.Join(' ', pages);
        for (var n = 1; n <= 300; n++)
            Assert.Single(System.Text.RegularExpressions.Regex.Matches(all, $"Work item {n}, as found"));
        Assert.All(pages.SkipLast(1), page => Assert.Contains("Amount, EUR", page));
        Assert.Contains("€3,690.00", pages[^1]);
        Assert.InRange(paper.Pdf.Length, 20_000, 200_000);
    }

    [Theory]
    [MemberData(nameof(Lengths))]
    public void A_group_heading_never_stands_last_on_a_page_and_the_totals_hold_together(int lines)
    {
        var pages = ReadBack.Pages(PaperRenderer.Render(PaperKind.Invoice, Sample.InvoiceOf(lines)));
        foreach (var page in pages)
        {
            var body = page[..page.IndexOf("Tern Street Cameras · Tax no.", StringComparison.Ordinal)].TrimEnd();
            Assert.False(body.EndsWith("Labour", StringComparison.Ordinal) || body.EndsWith("Parts", StringComparison.Ordinal) || body.EndsWith("Amount, EUR", StringComparison.Ordinal), body);
        }
        Assert.Single(pages, page => page.Contains("Sum of lines") && page.Contains("To pay"));
    }

    public static TheoryData<int> Lengths => [.. Enumerable.Range(8, 40)];

    [Fact]
    public void A_credit_note_names_the_invoice_it_takes_back_and_asks_for_nothing()
    {
        var text = Text(Sample.CreditNote, PaperKind.CreditNote);
        Assert.Contains("Credit note", text);
        Assert.Contains("Invoice 2026-0312 of 24 November 2026. The invoice was made out to the wrong person.", text);
        Assert.Contains("Total given back €345.63", text);
        Assert.DoesNotContain("To pay", text);
        Assert.DoesNotContain("IBAN", text);
    }

    [Theory]
    [InlineData(TaxCategory.ReverseCharge, "Reverse charge: the customer accounts for the tax.")]
    [InlineData(TaxCategory.Export, "Export: no tax is charged.")]
    [InlineData(TaxCategory.Exempt, "Exempt from tax.")]
    [InlineData(TaxCategory.IntraCommunity, "Intra-Community supply, exempt from tax.")]
    [InlineData(TaxCategory.OutsideScope, "Outside the scope of tax.")]
    public void Tax_of_nothing_says_why(TaxCategory category, string wording)
    {
        var facts = Sample.Invoice with { Taxes = [new() { Name = "VAT", Category = category, Percent = 0, Base = 281m, Tax = 0 }] };
        Assert.Contains(wording, Text(facts));
        Assert.Contains("§ 4 no. 1", Text(facts with { Taxes = [facts.Taxes[0] with { Reason = "§ 4 no. 1" }] }));
    }

    [Fact]
    public void Ordinary_tax_needs_no_wording() => Assert.DoesNotContain("everse charge", Text(Sample.Invoice));

    [Fact]
    public void A_paid_invoice_says_so_and_shows_no_code()
    {
        var text = Text(Sample.Invoice with { Paid = 345.63m, Due = 0 });
        Assert.Contains("Paid in full. Thank you.", text);
        Assert.DoesNotContain("Scan to pay", text);
    }

    [Fact]
    public void The_payment_code_is_the_published_example_for_its_values()
    {
        // European Payments Council, EPC069-12 version 2.1, the example in the guideline.
        Assert.Equal(
            "BCD\n001\n1\nSCT\nBPOTBEB1\nRed Cross of Belgium\nBE72000000001616\nEUR1\nCHAR\n\nUrgency fund\nSample EPC QR code",
            EpcPayload.Build("BPOTBEB1", "Red Cross of Belgium", "BE72 0000 0000 1616".Replace(" ", ""), 1m, "CHAR", null, "Urgency fund", "Sample EPC QR code"));
    }

    [Fact]
    public void The_second_published_payment_code_has_a_structured_reference_and_nothing_after_it()
    {
        // The worked example that goes round with the guideline: RF reference of ISO 11649 in line 10.
        Assert.Equal(
            "BCD\n001\n1\nSCT\nBHBLDEHHXXX\nFranz Mustermänn\nDE71110220330123456789\nEUR12.3\nGDDS\nRF18539007547034",
            EpcPayload.Build("BHBLDEHHXXX", "Franz Mustermänn", "DE71110220330123456789", 12.3m, "GDDS", "RF18539007547034", null, null));
    }

    [Fact]
    public void A_sound_RF_reference_goes_into_the_structured_line_and_stands_on_paper_in_groups()
    {
        var facts = Sample.Invoice with { PaymentReference = "RF18539007547034" };
        Assert.EndsWith("\nEUR245.63\n\nRF18539007547034", EpcPayload.For(facts));
        Assert.Contains("RF18 5390 0754 7034", Text(facts));
        Assert.Throws<ArgumentException>("remittance", () => EpcPayload.Build(null, "N", "I", 1, null, "RF18539007547034", "text", null));
    }

    [Theory]
    [InlineData(0.01, "EUR0.01")]
    [InlineData(999999999.99, "EUR999999999.99")]
    public void The_smallest_and_the_largest_amount_of_the_guideline_have_a_code(double due, string line) =>
        Assert.Contains("\n" + line + "\n", EpcPayload.For(Sample.Invoice with { Due = (decimal)due }));

    [Fact]
    public void A_payload_of_more_than_331_bytes_makes_no_code() =>
        Assert.Null(EpcPayload.For(Sample.Invoice with { PaymentReference = new string('語', 90), Shop = Sample.Shop with { Name = new string('語', 70) } }));

    [Fact]
    public void Without_a_BIC_the_code_is_version_002_and_nothing_follows_the_last_filled_line()
    {
        var payload = EpcPayload.For(Sample.Invoice with { Shop = Sample.Shop with { Bic = null } });
        Assert.Equal("BCD\n002\n1\nSCT\n\nTern Street Cameras\nBE68539007547034\nEUR245.63\n\n\n2026-0312", payload);
    }

    [Theory]
    [InlineData("GBP", "BE68539007547034", 245.63)]
    [InlineData("EUR", null, 245.63)]
    [InlineData("EUR", "QA58DOHB00001234567890ABCDEFG", 245.63)]
    [InlineData("EUR", "BE68539007547034", 0)]
    public void There_is_no_code_outside_euro_SEPA_and_something_to_pay(string currency, string? iban, double due) =>
        Assert.Null(EpcPayload.For(Sample.Invoice with { Currency = currency, Due = (decimal)due, Shop = Sample.Shop with { Iban = iban } }));

    [Fact]
    public void The_longest_payment_code_keeps_to_version_13()
    {
        var payload = EpcPayload.For(Sample.Invoice with
        {
            Due = 999999999.99m,
            PaymentReference = new string('é', 90),
            Shop = Sample.Shop with { Name = new string('N', 200) },
        });
        Assert.NotNull(payload);
        Assert.InRange(new QrBlock(payload, 80, 0).Version, 5, 13);
    }

    [Theory]
    [InlineData("JPY", "ja-JP", "￥500")]
    [InlineData("KWD", "en-IE", "KWD 500.000")]
    public void Totals_have_the_currencys_digits(string currency, string locale, string expected)
    {
        var facts = Sample.Invoice with { Currency = currency, Total = 500m, Shop = Sample.Shop with { Locale = locale } };
        Assert.Contains("Total " + expected, Text(facts).Replace('\u00A0', ' ').Replace('¥', '￥'));
    }
}
