using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;
using UglyToad.PdfPig;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>The longest texts the fields take: nothing is printed over an edge or over the foot, and nothing is lost.</summary>
public class OverlongTests
{
    private static readonly string Words500 = string.Join(' ', Enumerable.Repeat("escapement", 45))[..490] + " lastword";
    private static readonly string Name200 = new string('W', 120) + " " + new string('M', 79);
    private static readonly string Text4000 = string.Join(' ', Enumerable.Range(1, 800).Select(n => $"w{n:000}"));

    public static TheoryData<PaperKind> Sheets => [.. Enum.GetValues<PaperKind>().Where(kind => kind is not (PaperKind.ClaimTag or PaperKind.TrayLabel))];

    private static PaperFacts Overlong(PaperKind kind)
    {
        var customer = Sample.Customer with { Name = Name200, AddressLines = [Name200, Words500] };
        var shop = Sample.Shop with { Name = Name200, AddressLines = [Words500] };
        var camera = Sample.Camera with { Maker = Name200, Lens = Name200 };
        return Sample.All.Single(paper => paper.Kind == kind).Facts switch
        {
            ClaimTagFacts tag => tag with { Customer = customer, Shop = shop, Camera = camera, Complaint = Text4000 },
            EstimateFacts estimate => estimate with { Customer = customer, Shop = shop, Camera = camera, Complaint = Text4000, Lines = [.. estimate.Lines.Select(line => line with { Text = Words500 })] },
            InvoiceFacts invoice => invoice with { Customer = customer, Shop = shop, Camera = camera, Complaint = Text4000, Lines = [.. invoice.Lines.Select(line => line with { Text = Words500, Amount = 99_999_999.99m })] },
            ServiceRecordFacts record => record with { Customer = customer, Shop = shop, Camera = camera, Complaint = Text4000, Findings = [record.Findings[0] with { Component = Name200, Text = Text4000 }] },
            BenchSheetFacts sheet => sheet with { CustomerName = Name200, Shop = shop, Camera = camera, Complaint = Text4000, Notes = [Words500] },
            StatementFacts statement => statement with { Customer = customer, Shop = shop, Lines = [.. statement.Lines.Select(line => line with { Text = Words500, Amount = 99_999_999.99m, Balance = -99_999_999.99m })] },
            ReminderFacts reminder => reminder with { Customer = customer, Shop = shop, Title = Name200[..60], Text = Text4000, Lines = [.. reminder.Lines.Select(line => line with { Amount = 99_999_999.99m, Paid = 99_999_999.99m, Credited = 99_999_999.99m, Due = 99_999_999.99m })], EarlierFees = [new(Name200, reminder.IssueDate, 99_999_999.99m)], Total = 99_999_999.99m },
            var other => other,
        };
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Every_letter_stays_on_the_sheet(PaperKind kind)
    {
        using var document = PdfDocument.Open(PaperRenderer.Render(kind, Overlong(kind)).Pdf);
        foreach (var page in document.GetPages())
            Assert.All(page.Letters.Where(letter => letter.Value.Trim().Length > 0), letter =>
            {
                Assert.InRange(letter.BoundingBox.Left, 40, page.Width - 40);
                Assert.InRange(letter.BoundingBox.Right, 40, page.Width - 40);
                Assert.InRange(letter.BoundingBox.Bottom, 8, page.Height - 30);
            });
    }

    public static TheoryData<PaperKind> Complaints => [.. Enum.GetValues<PaperKind>().Where(kind => kind is not (PaperKind.ClaimTag or PaperKind.TrayLabel or PaperKind.Statement))];

    [Theory]
    [MemberData(nameof(Complaints))]
    public void Every_word_of_a_long_complaint_is_printed_once_and_in_order(PaperKind kind)
    {
        var text = ReadBack.Words(kind, Overlong(kind));
        var found = System.Text.RegularExpressions.Regex.Matches(text, @"\bw\d{3}\b").Select(match => match.Value).Take(800);
        Assert.Equal(Text4000.Split(' '), found);
    }

    [Fact]
    public void The_last_word_of_every_long_line_is_printed() =>
        Assert.Equal(Sample.Invoice.Lines.Count, System.Text.RegularExpressions.Regex.Count(ReadBack.Words(PaperKind.Invoice, Overlong(PaperKind.Invoice)).Split("Quantity", 2)[1], "lastword"));
}
