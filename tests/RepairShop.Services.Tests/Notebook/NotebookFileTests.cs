using System.Text;
using System.Text.Json.Nodes;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Notebook;
using RepairShop.Services.Repairs;
using RepairShop.Testing;
using Xunit;
using static RepairShop.Services.Tests.Notebook.Pages;

namespace RepairShop.Services.Tests.Notebook;

public sealed class NotebookFileTests(PostgresServer server)
{
    // A JPEG of one pixel, as any program would write it.
    private static readonly byte[] Picture = Convert.FromBase64String(
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAMCAgICAgMCAgIDAwMDBAYEBAQEBAgGBgUGCQgKCgkICQkKDA8MCgsOCwkJDRENDg8QEBEQCgwSExIQEw8QEBD/yQALCAABAAEBAREA/8wABgAQEAX/2gAIAQEAAD8A0s8g/9k=");

    private static async Task<Guid> FullPage(Workshop shop)
    {
        var page = await shop.Page("Example Works", "Lark", notes: "Two screws\nlook alike: \"short\" & long, 0.5 mm", speeds: "1 1/2 1/4 B");
        await shop.Variant(page, "First", "rewind: knob\ncolour: chrome\ncolour: black", "up to 1958");
        await shop.Entry(page, Typed(EntryKind.Gauge, "Spring at rest") with { Unit = GaugeLimits.Clock, Low = 2, High = 3.5 });
        await shop.Entry(page, Typed(EntryKind.Tool, "Spanner", "32 mm") with { Link = "https://example.com/spanner" });
        await shop.Entry(page, Typed(EntryKind.Caution, "") with { Caution = Caution.SeleniumCell });
        await shop.Guide(page, new GuideOrigin("First try"), Step("Front ring"));
        await shop.Guide(page, new GuideOrigin("With the shims"),
            Step("Front ring") with { Remember = Remember.LeftHandThread | Remember.EasilyLost, HeldBy = HeldBy.Ring },
            Step("Standard") with { Count = 2, ShimPlace = "left", ShimCount = 1, ShimMillimetres = 0.05, Note = "Mark it" });
        Done(await shop.Do<ModelPhotoService, Result<ModelPhotosTaken>>(photos => photos.AddAsync(page, [new PhotoFile("a.jpg", Picture, "Gear train")], Ct)));
        return page;
    }

    private static async Task<byte[]> HandOut(Workshop shop, Guid page) =>
        Done(await shop.Do<NotebookFileService, Result<HandedOut>>(files => files.WriteAsync(page, withPhotos: true, Ct))).Bytes;

    private static async Task<ImportPreview> Look(Workshop shop, byte[] file) =>
        Done(await shop.Do<NotebookImportService, Result<ImportPreview>>(import => import.LookAsync(file, Ct)));

    private static async Task<Guid> Take(Workshop shop, byte[] file)
    {
        var preview = await Look(shop, file);
        return Done(await shop.Do<NotebookImportService, Result<Guid>>(import => import.TakeAsync(preview.Key, Ct)));
    }

    [Fact]
    public async Task What_is_handed_out_and_taken_elsewhere_is_handed_out_there_the_same()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await using var elsewhere = await Workshop.OpenAsync(server);
        var file = await HandOut(shop, await FullPage(shop));
        var page = await Take(elsewhere, file);
        var back = NotebookFileReader.Read(await HandOut(elsewhere, page)).Value!;
        var sent = NotebookFileReader.Read(file).Value!;
        // The picture is made fit to keep again on the way in, so its bytes may differ; everything else may not.
        Assert.Equal(["Gear train"], back.Photos.Select(photo => photo.Caption));
        Assert.Equal(
            Encoding.UTF8.GetString(NotebookFileReader.Write(sent with { Photos = [] })), Encoding.UTF8.GetString(NotebookFileReader.Write(back with { Photos = [] })));
        var guide = (await elsewhere.Read(page)).Guide!;
        Assert.Equal((1, "With the shims", (string?)null), (guide.Number, guide.Note, guide.FromRepair));
    }

    [Fact]
    public async Task The_same_file_taken_again_changes_nothing()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await using var elsewhere = await Workshop.OpenAsync(server);
        var file = await HandOut(shop, await FullPage(shop));
        var page = await Take(elsewhere, file);
        var preview = await Look(elsewhere, file);
        Assert.Equal((page, true, 6), (preview.PageId!.Value, preview.ChangesNothing, preview.Unchanged));
        await Take(elsewhere, file);
        var view = await elsewhere.Read(page);
        Assert.Equal((1, 3, 1, 1), (view.Variants.Count, view.Entries.Count, view.Guide!.Newest, view.Photos.Count));
    }

    [Fact]
    public async Task Taking_adds_and_changes_as_shown_and_removes_nothing()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await using var elsewhere = await Workshop.OpenAsync(server);
        var file = await HandOut(shop, await FullPage(shop));
        var page = await elsewhere.Page("EXAMPLE works", "lark", notes: "Ours");
        await elsewhere.Entry(page, Typed(EntryKind.Tool, "spanner", "31 mm"));
        await elsewhere.Entry(page, Typed(EntryKind.Tool, "Bung"));
        await elsewhere.Guide(page, new GuideOrigin("Ours"), Step("Back"));
        var preview = await Look(elsewhere, file);
        Assert.Equal(
            [("notes", "Ours"), ("marked speeds", null), ("variant First", null), ("gauge Spring at rest", null), ("tool Spanner", "31 mm"), ("caution selenium cell", null), ("guide", "1 step"), ("picture", null)],
            preview.Changes.Select(change => (change.What, change.Here)));
        await Take(elsewhere, file);
        var view = await elsewhere.Read(page);
        Assert.Equal(["Bung", "Spanner"], view.Of(EntryKind.Tool).Select(tool => tool.Typed.Title).Order());
        Assert.Equal((2, "With the shims"), (view.Guide!.Newest, view.Guide.Note));
    }

    [Fact]
    public async Task No_word_of_the_workshops_own_work_is_in_the_file()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await FullPage(shop);
        var repair = await shop.Repair((row, camera) =>
        {
            (camera.Maker, camera.Model, camera.BodySerial, camera.Notes) = ("Example Works", "Lark", "SERIAL-777", "Camera note");
            row.Complaint = "Complaint words";
        });
        await shop.Found(repair, "Blades", Condition.Worn, finding => finding.Text = "Finding words");
        await shop.Guide(page, new GuideOrigin("Third", repair.Id), Step("Name plate"));
        var text = Encoding.UTF8.GetString(await HandOut(shop, page));
        Assert.Contains("Name plate", text);
        foreach (var secret in new[] { "A. Customer", repair.Number, "SERIAL-777", "Complaint words", "Finding words", "Camera note", "Blades", "Mender", repair.Id.ToString(), page.ToString() })
            Assert.DoesNotContain(secret, text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_customer_named_by_whoever_wrote_a_note_is_pointed_out_before_it_leaves()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        await shop.Repair("Example Works", "Lark");
        Assert.Empty(await shop.Do<NotebookFileService, IReadOnlyList<PrivateWord>>(files => files.PrivateWordsAsync(page, Ct)));
        await shop.Entry(page, Typed(EntryKind.Tool, "Spanner", "Borrowed from a. customer in May"));
        Assert.Equal(new PrivateWord("entries[0].text", "A. Customer"),
            Assert.Single(await shop.Do<NotebookFileService, IReadOnlyList<PrivateWord>>(files => files.PrivateWordsAsync(page, Ct))));
    }

    [Fact]
    public async Task A_bad_file_is_refused_naming_the_place_and_nothing_of_it_is_taken()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var good = JsonNode.Parse(await HandOut(shop, await FullPage(shop)))!;
        async Task<Failure?> With(Action<JsonNode> spoil)
        {
            var spoilt = good.DeepClone();
            spoil(spoilt);
            return (await shop.Do<NotebookImportService, Result<ImportPreview>>(import => import.LookAsync(Encoding.UTF8.GetBytes(spoilt.ToJsonString()), Ct))).Failure;
        }

        Assert.Equal("guide.steps[1].count", Assert.IsType<NotebookFileWrong>(await With(file => file["guide"]!["steps"]![1]!["count"] = "two")).Place);
        Assert.Equal("guide.steps[1]", Assert.IsType<NotebookFileWrong>(await With(file => file["guide"]!["steps"]![1]!["count"] = -3)).Place);
        Assert.Equal("entries[1]", Assert.IsType<NotebookFileWrong>(await With(file => file["entries"]![1]!["link"] = "javascript:alert(1)")).Place);
        Assert.Equal("entries[1].title", Assert.IsType<NotebookFileWrong>(await With(file => file["entries"]![1]!["title"] = new string('x', 201))).Place);
        Assert.Equal("entries[0].kind", Assert.IsType<NotebookFileWrong>(await With(file => file["entries"]![0]!["kind"] = "poem")).Place);
        Assert.Equal("markedSpeeds", Assert.IsType<NotebookFileWrong>(await With(file => file["markedSpeeds"]![0] = "fast")).Place);
        Assert.Equal("model", Assert.IsType<NotebookFileWrong>(await With(file => file["model"] = " ")).Place);
        Assert.Contains("surprise", Assert.IsType<NotebookFileWrong>(await With(file => file["surprise"] = 1)).Place);
        Assert.Equal("entries", Assert.IsType<NotebookFileWrong>(await With(file => file["entries"]![0] = null)).Place);
        Assert.Equal("guide.steps[0].remember[0]", Assert.IsType<NotebookFileWrong>(await With(file => file["guide"]!["steps"]![0]!["remember"]![0] = 3)).Place);
        Assert.Equal("notes", Assert.IsType<NotebookFileWrong>(await With(file => file["notes"] = null)).Place);
        Assert.Equal(new NotebookFileOfAnotherVersion(2), await With(file => file["version"] = 2));
        Assert.IsType<NotANotebookFile>(await With(file => file["format"] = "recipe"));
        foreach (var junk in new[] { "", "not json", "[]", "{}", "null", "{\"format\":" })
        {
            var refused = await shop.Do<NotebookImportService, Result<ImportPreview>>(import => import.LookAsync(Encoding.UTF8.GetBytes(junk), Ct));
            Assert.True(refused.Failure is NotebookFileWrong or NotANotebookFile, $"{junk}: {refused.Failure}");
        }
    }

    [Fact]
    public async Task A_picture_that_is_none_stops_the_whole_file()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var file = new NotebookFile { Format = NotebookFile.FormatName, Version = 1, Maker = "Example Works", Model = "Wren", Photos = [new FilePhoto("", [1, 2, 3])] };
        var preview = await Look(shop, NotebookFileReader.Write(file));
        var refused = await shop.Do<NotebookImportService, Result<Guid>>(import => import.TakeAsync(preview.Key, Ct));
        Assert.Equal("photos[0]", Assert.IsType<NotebookFileWrong>(refused.Failure).Place);
        Assert.Null((await Look(shop, NotebookFileReader.Write(file))).PageId);
    }

    [Theory]
    [InlineData("")]
    [InlineData("../../../etc/passwd")]
    [InlineData("0000000000000000000000000000000000000000000000000000000000000000")]
    public async Task Only_a_file_that_was_looked_at_can_be_taken(string key)
    {
        await using var shop = await Workshop.OpenAsync(server);
        Assert.IsType<NotebookFileGone>((await shop.Do<NotebookImportService, Result<Guid>>(import => import.TakeAsync(key, Ct))).Failure);
    }
}
