using System.Net;
using System.Text;
using RepairShop.Domain.Notebook;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Notebook;

public class NotebookStories(PostgresServer server)
{
    [Fact]
    public async Task An_unknown_model_is_offered_a_page_and_known_ones_are_linked_from_the_sheet()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001");
        Assert.Contains("No notebook page for this model yet", client.Text);
        await client.Open(client.Page.QuerySelector("a[href^='/notebook/new']")!.GetAttribute("href")!);
        Assert.Equal(("Example Works", "Model 1"), (client.Value("Input.Maker"), client.Value("Input.Model")));
        await client.Press("Start the page", ("Input.Notes", "Selenium meter"));
        Assert.Equal("Example Works Model 1", client.Heading);
        Assert.Contains("Selenium cell", client.Page.QuerySelector("#cautions")!.TextContent);
        foreach (var place in new[] { "", "/strip-down", "/strip-down/bench" })
        {
            await client.Open($"/repairs/2026-0001{place}");
            Assert.Equal("Notebook: Example Works Model 1", client.Page.QuerySelector("main a[href*='/notebook/']")!.TextContent);
        }
    }

    [Fact]
    public async Task An_entry_is_added_changed_removed_and_undone_and_nothing_typed_wrong_is_lost()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        var page = await Started(client);
        await client.Open($"{page}/entries/new?kind=Gauge");
        await client.Press("Add it", ("Input.Title", "Spring at rest"), ("Input.Unit", "o’clock"), ("Input.Low", "2:00"), ("Input.High", "25"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("is not a place on a clock's face", Assert.Single(client.Errors));
        Assert.Equal("25", client.Value("Input.High"));
        await client.Press("Add it", ("Input.High", "3:30"));
        Assert.Contains("2:00 to 3:30\u00A0o'clock", client.Page.QuerySelector("#gauges")!.TextContent);
        await client.Open(client.Page.QuerySelector("#gauges tbody a")!.GetAttribute("href")!);
        Assert.Equal("3:30", client.Value("Input.High"));
        await client.Press("Remove");
        Assert.Equal("Removed: Spring at rest.", client.Notice);
        Assert.Null(client.Page.QuerySelector("#gauges tbody"));
        await client.Press("Undo");
        Assert.Equal("It is back where it was.", client.Notice);
        Assert.NotNull(client.Page.QuerySelector("#gauges tbody"));
    }

    [Fact]
    public async Task Two_tabs_on_one_variant_see_both_values_and_saving_again_is_a_choice()
    {
        await using var app = await ShopApp.Start(server);
        using var one = await app.SignedIn("bench");
        using var other = await app.SignedIn();
        var page = await Started(one);
        await one.Open($"{page}/variants/new");
        await one.Press("Add variant", ("Input.Name", "First"), ("Input.Traits", "rewind: knob"));
        var edit = one.Page.QuerySelector("#variants tbody a")!.GetAttribute("href")!;
        await one.Open(edit);
        await other.Open(edit);
        await one.Press("Save variant", ("Input.Traits", "rewind: crank"));
        await other.Press("Save variant", ("Input.Traits", "rewind: lever"));
        Assert.Equal("Traits rewind: crank rewind: lever", string.Join(' ', other.Page.QuerySelectorAll(".changed tbody tr > *").Select(cell => cell.TextContent.Trim())));
        await other.Press("Save variant");
        Assert.Contains("rewind: lever", other.Page.QuerySelector("#variants")!.TextContent);
    }

    [Fact]
    public async Task A_few_answers_name_the_variant_and_say_what_speaks_against_the_others()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        var page = await Started(client);
        foreach (var (name, traits) in new[] { ("First", "rewind: knob\nlugs: none"), ("Second", "rewind: knob\nlugs: round"), ("Third", "rewind: crank\nlugs: round"), ("Fourth", "rewind: crank\nlugs: square") })
        {
            await client.Open($"{page}/variants/new");
            await client.Press("Add variant", ("Input.Name", name), ("Input.Traits", traits));
        }

        await client.Open($"{page}/which");
        Assert.StartsWith("lugs", client.Page.QuerySelector(".questions legend")!.TextContent.Trim());
        await client.Open($"{page}/which?said.lugs=round&said.rewind=crank&said.nonsense=1");
        Assert.Equal("Third", client.Page.QuerySelector(".findings strong")!.TextContent);
        Assert.Contains("you see crank, this variant has knob", client.Text);
        Assert.Equal(["lugs", "rewind"], client.Page.QuerySelectorAll(".questions legend bdi").Select(legend => legend.TextContent).Order());
    }

    [Fact]
    public async Task The_guide_is_written_by_hand_improved_and_an_older_version_made_the_newest_again()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        var page = await Started(client);
        await client.Open($"{page}/guide/edit");
        await client.Press("Add a step at the end", ("Input.Steps[0].What", "Front ring"), ("Input.Note", "By hand"));
        Assert.Equal(("Front ring", "By hand"), (client.Value("Input.Steps[0].What"), client.Value("Input.Note")));
        await client.Press("Save as version 1");
        Assert.Contains("Step 2", Assert.Single(client.Errors));
        await client.Press("Save as version 1", ("Input.Steps[1].What", "Name plate"), ("Input.Steps[1].Count", "3"));
        Assert.Equal("The guide is saved.", client.Notice);
        Assert.Equal(["Front ring", "3 × Name plate"], Steps(client));
        await client.Open($"{page}/guide/edit");
        await client.Press("Later Front ring");
        await client.Press("Save as version 2", ("Input.Note", "Plate first"));
        Assert.Equal(["3 × Name plate", "Front ring"], Steps(client));
        await client.Open($"{page}/guide/compare?from=1&to=2");
        Assert.Contains("moved, was step", client.Text);
        await client.Open($"{page}/guide?version=1");
        await client.Press("Make this the newest again");
        Assert.Equal(["Front ring", "3 × Name plate"], Steps(client));
        Assert.Contains("Version 3, the newest", client.Text);
    }

    [Fact]
    public async Task Two_people_improving_one_guide_are_told_and_neither_loses_a_step()
    {
        await using var app = await ShopApp.Start(server);
        using var one = await app.SignedIn("bench");
        using var other = await app.SignedIn();
        var page = await Started(one);
        await one.Open($"{page}/guide/edit");
        await other.Open($"{page}/guide/edit");
        await one.Press("Save as version 1", ("Input.Steps[0].What", "Front ring"));
        await other.Press("Save as version 1", ("Input.Steps[0].What", "Back cover"));
        Assert.Contains("saved version 1 of this guide while you were writing", Assert.Single(other.Errors));
        Assert.Equal("Back cover", other.Value("Input.Steps[0].What"));
        await other.Press("Save as version 2");
        Assert.Equal(["Back cover"], Steps(other));
        await other.Open($"{page}/guide?version=1");
        Assert.Equal(["Front ring"], Steps(other));
    }

    [Fact]
    public async Task The_guide_is_a_checklist_on_the_next_repair_and_its_record_the_next_version()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        var page = await Started(client, "Example Works", "Model 1");
        await client.Open($"{page}/guide/edit");
        await client.Press("Add a step at the end", ("Input.Steps[0].What", "Front ring"));
        await client.Press("Save as version 1", ("Input.Steps[1].What", "Name plate"));
        await client.Open("/repairs/2026-0001/guide");
        Assert.Contains("Nothing is off yet", client.Text);
        await client.Press("It came off: Name plate");
        Assert.Equal("Written in the strip-down record.", client.Notice);
        Assert.Contains("1 of them are off", client.Text);
        await client.Press("Save as the model's guide", ("note", "Plate only"));
        Assert.Equal("It is version 2 of the model's guide.", client.Notice);
        Assert.Equal(["Name plate"], Steps(client));
        Assert.Contains("from repair 2026-0001", client.Text);
    }

    [Fact]
    public async Task A_file_is_looked_at_then_taken_and_a_bad_one_is_refused_at_its_place()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/notebook/import");
        await client.Upload("Look into it", "file", "x.json", Encoding.UTF8.GetBytes("{\"format\":\"camera-notebook\",\"version\":1,\"maker\":\"A\",\"model\":\"B\",\"entries\":[{\"kind\":\"tool\",\"title\":\"\"}]}"));
        Assert.Contains("At entries[0]:", Assert.Single(client.Errors));
        var file = NotebookFileReader.Write(new NotebookFile
        {
            Format = NotebookFile.FormatName,
            Version = 1,
            Maker = "Example Works",
            Model = "Wren",
            Entries = [new FileEntry { Kind = EntryKind.Tool, Title = "Bung", Text = "32 mm" }],
        });
        await client.Upload("Look into it", "file", "wren.notebook.json", file);
        Assert.Contains("This starts a new page.", client.Text);
        Assert.Equal("tool Bung", client.Page.QuerySelector("tbody th")!.TextContent.Trim());
        await client.Press("Take it in");
        Assert.Equal(("Example Works Wren", "The file is taken in."), (client.Heading, client.Notice));
        await client.Open(client.Page.QuerySelector("a[href$='/share']")!.GetAttribute("href")!);
        await client.Press("Without pictures");
        Assert.Equal("application/json", client.Response.Content.Headers.ContentType!.MediaType);
        Assert.Equal(file, await client.Response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Searching_finds_the_model_and_marks_the_word_and_an_empty_notebook_says_what_belongs_in_it()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("counter");
        await client.Open("/notebook");
        Assert.Contains("No model is written down yet", client.Text);
        var page = await Started(client);
        await client.Open($"{page}/entries/new?kind=Fault");
        await client.Press("Add it", ("Input.Title", "Release"), ("Input.Text", "The springs <i>have</i> set."));
        await client.Open("/notebook?q=spring");
        Assert.Equal("springs", client.Page.QuerySelector("mark")!.TextContent);
        await client.Open("/notebook?q=escutcheon");
        Assert.Contains("No model has all of these words", client.Text);
    }

    [Fact]
    public async Task A_removed_page_is_undone_and_a_second_page_for_one_model_is_refused()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        var page = await Started(client);
        await client.Open("/notebook/new");
        await client.Press("Start the page", ("Input.Maker", "example works"), ("Input.Model", "LARK"));
        Assert.Contains("already has a page", Assert.Single(client.Errors));
        await client.Open($"{page}/edit");
        await client.Press("Remove the whole page");
        Assert.Equal("The page of Example Works Lark is removed.", client.Notice);
        await client.Press("Undo");
        Assert.Equal("Example Works Lark", client.Heading);
    }

    private static IEnumerable<string> Steps(FormClient client) => client.Page.QuerySelectorAll(".guide-steps .what strong").Select(what => what.TextContent);

    private static async Task<string> Started(FormClient client, string maker = "Example Works", string model = "Lark")
    {
        await client.Open("/notebook/new");
        await client.Press("Start the page", ("Input.Maker", maker), ("Input.Model", model));
        return client.Url.Split('?')[0];
    }
}
