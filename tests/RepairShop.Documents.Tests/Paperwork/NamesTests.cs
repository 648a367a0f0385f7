using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>What customers are called and where they live prints as they write it, and can be copied out again.</summary>
public class NamesTests
{
    private static RenderedPaper To(string name, params string[] address) => PaperRenderer.Render(PaperKind.Invoice,
        Sample.Invoice with { Customer = new PartyFacts { Name = name, AddressLines = address } });

    [Theory]
    [InlineData("A & B")]
    [InlineData("Łukasz Żółć")]
    [InlineData("Ωmega Φωτό")]
    [InlineData("Nguyễn Thị Đẹp")]
    [InlineData("Жанна Щукіна")]
    [InlineData("O’Connor-Smythe")]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("'); DROP TABLE x;--")]
    [InlineData("office affluent fjord")]
    public void A_name_is_read_back_as_it_was_written(string name)
    {
        var paper = To(name);
        Assert.Empty(paper.MissingCharacters);
        // pdftotext takes single letters evenly spaced for letter-spacing and drops the spaces: "A & B".
        Assert.Contains(Closed(name), Closed(ReadBack.PdfToText(paper)));
        Assert.Contains(name, ReadBack.Pages(paper)[0]);
    }

    private static string Closed(string text) => string.Concat(text.Where(c => c is not (' ' or '\u202A' or '\u202B' or '\u202C' or '\u200E' or '\u200F')));

    [Theory]
    [InlineData("יוסף")]
    [InlineData("علي")]
    [InlineData("محمد الحسيني")]
    public void A_right_to_left_name_is_read_back_in_its_order(string name)
    {
        var paper = To(name);
        Assert.Empty(paper.MissingCharacters);
        // pdftotext wraps what runs from right to left in direction marks, and puts spaces between some joined Arabic letters.
        Assert.Contains(Closed(name), Closed(ReadBack.PdfToText(paper)));
    }

    [Theory]
    [InlineData("התריס נתקע.\nגם כשחם.", 0x590, 0x5FF)]
    [InlineData("الغالق يعلق.\nفي البرد.", 0x600, 0x6FF)]
    public void A_paragraph_written_from_the_right_is_set_to_the_right(string complaint, int first, int last)
    {
        var paper = PaperRenderer.Render(PaperKind.Invoice, Sample.Invoice with { Complaint = complaint });
        using var document = UglyToad.PdfPig.PdfDocument.Open(paper.Pdf);
        var page = document.GetPage(1);
        var written = page.Letters.Where(letter => letter.Value.Length > 0 && letter.Value[0] >= first && letter.Value[0] <= last).ToList();
        var edge = page.Letters.Max(letter => letter.BoundingBox.Right); // the sums stand at the right edge
        Assert.InRange(written.Max(letter => letter.BoundingBox.Right), edge - 3, edge + 1);
        Assert.All(written, letter => Assert.True(letter.BoundingBox.Left > page.Width / 2, $"{letter.Value} at {letter.BoundingBox.Left}"));
    }

    [Fact]
    public void A_Japanese_address_prints_in_both_levels_of_kanji()
    {
        var paper = To("齋藤 桂子", "〒150-0001", "東京都渋谷区神宮前一丁目2番3号", "コーポ檜 ２０１号室");
        Assert.Empty(paper.MissingCharacters);
        var text = ReadBack.PdfToText(paper);
        foreach (var expected in (string[])["齋藤 桂子", "〒150-0001", "東京都渋谷区神宮前一丁目2番3号", "コーポ檜 ２０１号室"])
            Assert.Contains(expected, text);
        Assert.InRange(paper.Pdf.Length, 10_000, 60_000);
    }

    [Fact]
    public void A_character_no_font_has_is_reported_once_and_the_rest_prints()
    {
        var paper = To("Ines 📷 Halloway", "Camera 📷 Lane", "👩‍🔧 1");
        Assert.Equal(["👩‍🔧", "📷"], paper.MissingCharacters);
        var text = ReadBack.PdfToText(paper);
        Assert.Contains("Ines", text);
        Assert.Contains("Halloway", text);
        Assert.Contains("Lane", text);
    }

    [Fact]
    public void Control_characters_and_direction_codes_do_no_harm()
    {
        var paper = To("Ines\u0000\u0007\u001b[31m Hallo\u00ADway\u202E", "Line one\r\nLine two\tafter");
        var text = ReadBack.PdfToText(paper);
        Assert.Contains("Line one", text);
        Assert.Contains("Line two after", text);
        Assert.DoesNotContain('\u0007', text);
    }

    [Fact]
    public void A_word_longer_than_its_column_is_cut_not_lost()
    {
        var serial = string.Concat(Enumerable.Range(0, 40).Select(n => $"{n:00}"));
        var text = string.Concat(ReadBack.Words(PaperKind.Invoice, Sample.Invoice with { Customer = Sample.Customer with { Name = serial, AddressLines = [] } }).Where(char.IsDigit));
        var parts = serial.Chunk(12).Select(part => new string(part));
        Assert.All(parts.Take(2), part => Assert.Contains(part, text));
    }

    [Fact]
    public void A_label_keeps_to_one_page_and_inside_its_edges_however_long_the_names()
    {
        var paper = PaperRenderer.Render(PaperKind.ClaimTag, Sample.ClaimTag with
        {
            CustomerSurname = "Featherstonehaugh-Cholmondeley-Wolfeschlegelsteinhausen",
            Camera = Sample.Camera with { Model = "Pelter Extraordinary Chronometric Reflex Anniversary" },
        });
        Assert.Equal(1, paper.Pages);
        using var document = UglyToad.PdfPig.PdfDocument.Open(paper.Pdf);
        var page = document.GetPage(1);
        Assert.Equal((176, 82), ((int)Math.Round(page.Width), (int)Math.Round(page.Height)));
        Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Right, 0, page.Width - 4));
        Assert.Contains("…", page.Text);
        Assert.Contains("2026-0417", page.Text);
    }
}
