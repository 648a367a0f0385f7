using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;
using UglyToad.PdfPig;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>A letter about late invoices, read back.</summary>
public class ReminderPaperTests
{
    private static readonly ReminderLineFacts Line = Sample.Reminder.Lines[0];

    private static ReminderFacts Of(int invoices) => Sample.Reminder with
    {
        Lines = [.. Enumerable.Range(1, invoices).Select(n => Line with { Number = $"I-2025-{n:0000}", Amount = 10.5m, Paid = 0, Credited = 0, Due = 10.5m })],
        Due = 10.5m * invoices,
        Fee = 0,
        EarlierFees = [],
        Total = 10.5m * invoices,
        PaymentReference = null,
    };

    [Fact]
    public void It_says_what_was_billed_paid_and_taken_off_what_is_due_what_fees_there_are_and_by_when_to_pay()
    {
        var paper = PaperRenderer.Render(PaperKind.Reminder, Sample.Reminder);
        Assert.Equal(1, paper.Pages);
        foreach (var text in (string[])[ReadBack.Pages(paper)[0], ReadBack.PdfToText(paper)])
        {
            var plain = text.Replace('\u00A0', ' ');
            foreach (var expected in (string[])[
                "Second", "R-2026-0007", "I-2026-0042", "14 October 2026", "28 October 2026", "27 days late", "188.45", "−80.00", "−12.35", "96.10",
                "Fee of R-2026-0002, 5 November 2026", "€3.00", "Fee for this letter", "€4.00", "To pay by 8 December 2026", "€103.10",
                "BE68 5390 0754 7034", "RF07 I202 6004 2", "Is something wrong with the bill, or with the camera?", ReminderFacts.Crossed])
                Assert.Contains(expected, plain);
        }
    }

    [Fact]
    public void Many_invoices_go_over_several_pages_each_named_once_in_order_under_the_same_head()
    {
        var paper = PaperRenderer.Render(PaperKind.Reminder, Of(90));
        var pages = ReadBack.Pages(paper);
        Assert.InRange(pages.Count, 3, 8);
        var numbers = System.Text.RegularExpressions.Regex.Matches(string.Join(' ', pages), @"I-2025-\d{4}").Select(match => match.Value);
        Assert.Equal(Enumerable.Range(1, 90).Select(n => $"I-2025-{n:0000}"), numbers);
        Assert.All(pages.Where(page => page.Contains("I-2025-")), page => Assert.Contains("Still due", page));
        Assert.Contains("€945.00", pages[^1].Replace('\u00A0', ' '));
        Assert.Contains("Please give the numbers of the invoices you pay.", pages[^1]);
    }

    [Fact]
    public void One_invoice_in_euro_carries_the_code_for_all_that_is_asked_and_several_carry_none()
    {
        Assert.EndsWith("\nEUR103.1\n\nRF07I20260042", EpcPayload.For(Sample.Reminder));
        Assert.EndsWith("\nEUR10.5\n\n\nI-2025-0001", EpcPayload.For(Of(1)));
        Assert.Null(EpcPayload.For(Of(2)));
        Assert.Null(EpcPayload.For(Sample.Reminder with { Currency = "CHF" }));
    }

    [Fact]
    public void An_invoice_alone_and_untouched_needs_no_sum_before_the_total()
    {
        var text = ReadBack.Words(PaperKind.Reminder, Of(1));
        Assert.DoesNotContain("Still due on", text);
        Assert.DoesNotContain("Fee", text);
        Assert.DoesNotContain("Please give the numbers", text);
    }

    [Theory]
    [InlineData("Nguyễn Thị Đẹp")]
    [InlineData("יוסף")]
    [InlineData("齋藤 桂子")]
    public void A_name_in_the_text_prints_as_it_is_written(string name)
    {
        var paper = PaperRenderer.Render(PaperKind.Reminder, Sample.Reminder with { Customer = new PartyFacts { Name = name }, Text = $"Dear {name}," });
        Assert.Empty(paper.MissingCharacters);
        using var document = PdfDocument.Open(paper.Pdf);
        Assert.Equal(1, document.NumberOfPages);
    }
}
