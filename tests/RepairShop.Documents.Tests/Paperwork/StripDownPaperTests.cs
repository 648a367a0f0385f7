using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

public class StripDownPaperTests
{
    [Fact]
    public void Each_tray_has_a_label_of_its_own_that_says_whose_parts_lie_in_it()
    {
        var pages = ReadBack.Pages(PaperRenderer.Render(PaperKind.TrayLabel, Sample.TrayLabel));
        Assert.Equal(2, pages.Count);
        foreach (var (page, expected) in pages.Zip(new[] { new[] { "2026-0417", "Tray 1", "A1 – D6", "easily lost: B3 D6" }, ["2026-0417", "magnetic lid", "A1 – L20"] }))
            Assert.All(expected, words => Assert.Contains(words, page));
    }

    [Fact]
    public void A_tray_of_any_size_fits_its_label()
    {
        foreach (var (rows, columns) in new[] { (1, 1), (1, 20), (20, 1), (20, 20) })
            Assert.Equal(1, PaperRenderer.Render(PaperKind.TrayLabel, Sample.TrayLabel with { Trays = [new("1", rows, columns, ["A1"])] }).Pages);
    }

    [Fact]
    public void The_longest_names_stay_inside_the_label()
    {
        var name = new string('W', 60);
        var facts = Sample.TrayLabel with
        {
            RepairNumber = name,
            Shop = Sample.Shop with { Name = name },
            Camera = Sample.Camera with { Maker = name },
            Trays = [new(new string('M', 30), 20, 20, [.. Enumerable.Range(1, 20).Select(n => $"T{n}")])],
        };
        using var document = UglyToad.PdfPig.PdfDocument.Open(PaperRenderer.Render(PaperKind.TrayLabel, facts).Pdf);
        var page = document.GetPages().Single();
        Assert.All(page.Letters.Where(letter => letter.Value.Trim().Length > 0), letter =>
        {
            Assert.InRange(letter.BoundingBox.Left, 6, page.Width - 6);
            Assert.InRange(letter.BoundingBox.Right, 6, page.Width - 5.9); // the last hairline of an ellipsis
            Assert.InRange(letter.BoundingBox.Bottom, 3, page.Height - 6);
        });
    }

    [Fact]
    public void The_service_record_lists_parts_replaced_returned_and_not_refitted()
    {
        var text = string.Join(' ', ReadBack.Pages(PaperRenderer.Render(PaperKind.ServiceRecord, Sample.ServiceRecord)));
        foreach (var words in new[] { "Parts replaced", "Cell spring", "donor camera", "in the bag", "Parts returned", "Not refitted", "foam strip: perished" })
            Assert.Contains(words, text);
    }

    [Fact]
    public void A_declined_camera_says_how_it_goes_back()
    {
        var text = string.Join(' ', ReadBack.Pages(PaperRenderer.Render(
            PaperKind.ServiceRecord, Sample.ServiceRecord with { Reassembled = "returned as received, reassembled" })));
        Assert.Contains("the camera is returned as received, reassembled", text);
    }

    [Fact]
    public void Facts_frozen_before_strip_downs_were_kept_still_read()
    {
        var old = PaperJson.Write(Sample.ServiceRecord with { PartsReplaced = [], NotRefitted = [] })
            .Replace(",\"PartsReplaced\":[]", "", StringComparison.Ordinal).Replace(",\"NotRefitted\":[]", "", StringComparison.Ordinal);
        Assert.DoesNotContain("PartsReplaced", old);
        var read = (ServiceRecordFacts)PaperJson.Read(PaperKind.ServiceRecord, old);
        Assert.Empty(read.PartsReplaced);
        Assert.Empty(read.NotRefitted);
        Assert.Null(read.Reassembled);
        Assert.Equal(Sample.ServiceRecord.PartsReturned, read.PartsReturned);
        Assert.NotEmpty(PaperRenderer.Render(PaperKind.ServiceRecord, read).Pdf);
    }
}
