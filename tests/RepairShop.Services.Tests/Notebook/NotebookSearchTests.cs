using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Results;
using RepairShop.Services.Notebook;
using RepairShop.Testing;
using Xunit;
using static RepairShop.Services.Tests.Notebook.Pages;

namespace RepairShop.Services.Tests.Notebook;

public sealed class NotebookSearchTests(PostgresServer server)
{
    private static Task<IReadOnlyList<ModelFound>> Find(Workshop shop, string words) =>
        shop.Do<NotebookSearchService, IReadOnlyList<ModelFound>>(search => search.FindAsync(words, Ct));

    [Fact]
    public async Task Words_are_found_in_every_place_of_the_notebook_whatever_their_form_case_or_accents()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Żuraw", "Lark", notes: "Rewinding needs care.");
        await shop.Entry(page, Typed(EntryKind.Lubricant, "Helicoid", "Damping grease, sparingly"));
        await shop.Variant(page, "Second series", "eyepiece: square");
        await shop.Guide(page, new GuideOrigin(""), Step("Front ring") with { Note = "Warm the adhesive first" });
        await shop.Page("Example Works", "Wren", notes: "Nothing to say yet.");
        foreach (var words in new[] { "zuraw", "LARK", "rewind", "greases", "helic", "square eyepieces", "adhesives", "lark grease", "zuraw adhesive eyepiece" })
            Assert.True((await Find(shop, words)) is [{ Name: "Żuraw Lark" }], words);
    }

    [Theory]
    [InlineData("lark flange")]
    [InlineData("the")]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("'; drop table model_pages; --")]
    [InlineData("\\ ' : * & | ! ( )")]
    public async Task Nothing_is_found_unless_every_word_stands_there_and_no_sign_breaks_the_question(string words)
    {
        await using var shop = await Workshop.OpenAsync(server);
        await shop.Page("Example Works", "Lark", notes: "The rangefinder drifts.");
        Assert.Empty(await Find(shop, words));
    }

    [Fact]
    public async Task What_was_removed_and_what_an_older_guide_said_is_not_found()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        var entry = await shop.Entry(page, Typed(EntryKind.Tool, "Pincers"));
        await shop.Guide(page, new GuideOrigin(""), Step("Escutcheon"));
        await shop.Guide(page, new GuideOrigin(""), Step("Front ring"));
        Assert.Single(await Find(shop, "pincers"));
        Assert.Empty(await Find(shop, "escutcheon"));
        await shop.Do<EntryService, Result>(entries => entries.RemoveAsync(page, entry, Ct));
        Assert.Empty(await Find(shop, "pincers"));
        await shop.Do<NotebookService, Result>(pages => pages.RemoveAsync(page, Ct));
        Assert.Empty(await Find(shop, "lark"));
    }

    [Fact]
    public async Task The_word_is_marked_where_it_stands()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        var id = await shop.Entry(page, Typed(EntryKind.Fault, "Release", "The spring has set & drags."));
        var hit = Assert.Single(Assert.Single(await Find(shop, "springs")).Hits);
        Assert.Equal(("fault", id, "Release"), (hit.Kind, hit.EntryId!.Value, hit.Title));
        Assert.Equal(["spring"], hit.Pieces.Where(piece => piece.IsWord).Select(piece => piece.Text));
        Assert.Contains("set & drags", string.Concat(hit.Pieces.Select(piece => piece.Text)));
    }

    [Fact]
    public async Task Every_place_that_is_searched_has_its_index()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var indexed = await shop.Db(db => db.Database.SqlQuery<string>(
            $"select tablename as \"Value\" from pg_indexes where indexdef like '%gin (words)%' order by 1").ToListAsync(Ct));
        Assert.Equal(["guide_versions", "model_entries", "model_pages", "model_photos", "model_variants"], indexed);
    }
}
