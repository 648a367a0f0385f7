using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.StripDown;

/// <summary>Taking apart and the record of it, without script.</summary>
public class StripDownStories(PostgresServer server)
{
    private const string At = "/repairs/2026-0001/strip-down";

    [Fact]
    public async Task First_a_tray_then_each_step_begins_as_the_last_one_did_in_the_next_cell()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await Begun(app);
        Assert.Equal("A1", client.Value("Input.Cell"));
        await Add(client, "Front ring", ("Input.HeldBy", "Ring"));
        Assert.Equal(("Ring", "A2", "1", ""), (client.Value("Input.HeldBy"), client.Value("Input.Cell"), client.Value("Input.Count"), client.Value("Input.What")));
        await Add(client, "Name plate screw", ("Input.HeldBy", "Screw"), ("Input.Count", "3"), ("Input.Remember", "LeftHandThread"));
        Assert.Equal("A3", client.Value("Input.Cell"));
        await client.Open(At);
        Assert.Equal(["Front ring", "3 × Name plate screw"], Steps(client));
        Assert.Contains("left-hand thread", client.Page.QuerySelectorAll(".strip-list > li")[1].TextContent);
        Assert.Equal(["A1", "A2"], client.Page.QuerySelectorAll(".strip-list .cell").Select(cell => cell.TextContent));
    }

    [Theory]
    [InlineData("Input.What", "  ", "Input_What", "What came off is empty")]
    [InlineData("Input.Count", "0", "Input_Count", "write how many came off")]
    [InlineData("Input.Count", "1000", "Input_Count", "write how many came off")]
    [InlineData("Input.Cell", "Z99", "Input_Cell", "Tray 1 has no cell Z99: its last is D6.")]
    [InlineData("Input.Cell", "in lid", "Input_Cell", "“in lid” is not a cell")]
    [InlineData("Input.ShimCount", "2", "Input_ShimPlace", "Write where the shims lay")]
    [InlineData("Input.ShimPlace", "left post", "Input_ShimCount", "write how many shims there are")]
    public async Task Bad_input_gets_its_sentence_at_its_field_and_nothing_typed_is_lost(string field, string typed, string at, string says)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await Begun(app);
        await client.Press("Add step", ("Input.What", "Setting <b>ring</b>"), ("Input.Note", "faces up"), ("Input.Remember", "Orientation"), (field, typed));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains(says, client.Page.QuerySelector($"#{at}-error")!.TextContent);
        Assert.Equal((typed, "faces up"), (client.Value(field), client.Value("Input.Note")));
        Assert.NotNull(client.Page.QuerySelector("[name='Input.Remember'][value='Orientation'][checked]"));
        Assert.False(await app.WithDb(db => db.StripSteps.AnyAsync()));
        await client.Press("Add step", (field, field == "Input.What" ? "Ring" : field == "Input.Count" ? "1" : ""));
        Assert.Equal(1, await app.WithDb(db => db.StripSteps.CountAsync()));
    }

    [Fact]
    public async Task A_step_is_inserted_moved_corrected_and_the_correction_undone()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await Begun(app);
        await Add(client, "Front ring");
        await Add(client, "Front cell");
        await client.Open(At);
        await client.Open(Link(client, "Insert after step 1"));
        Assert.Equal("Insert after step 1", client.Heading);
        await client.Press("Insert step", ("Input.What", "Setting ring"));
        await client.Open(At);
        Assert.Equal(["Front ring", "Setting ring", "Front cell"], Steps(client));

        await client.Open(Link(client, "Open step 3"));
        await client.Press("Move step", ("after", ""));
        await client.Open(At);
        Assert.Equal(["Front cell", "Front ring", "Setting ring"], Steps(client));

        await client.Open(Link(client, "Open step 2"));
        await client.Press("Save step", ("Input.What", "Filter ring"), ("Input.Count", "2"));
        Assert.Contains("2 × Filter ring", client.Heading);
        await client.Press("Undo the last correction");
        await client.Open(At);
        Assert.Equal(["Front cell", "Front ring", "Setting ring"], Steps(client));
    }

    [Fact]
    public async Task A_step_is_split_and_struck_out_with_its_reason_and_brought_back()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await Begun(app);
        await Add(client, "Plate screw", ("Input.Count", "4"));
        await client.Open(At);
        var step = Link(client, "Open step 1");
        await client.Open(step);
        await client.Press("Split them off", ("Split.SplitCount", "4"), ("Split.What", "Long screw"));
        Assert.Contains("4 can't be split off: write 1 to 3", Assert.Single(client.Errors));
        Assert.Equal("Long screw", client.Value("Split.What"));
        await client.Press("Split them off", ("Split.SplitCount", "1"));
        await client.Open(At);
        Assert.Equal(["3 × Plate screw", "Long screw"], Steps(client));

        await client.Open(step);
        await client.Press("Strike out this step", ("Strike.Reason", ""));
        Assert.Equal("Why is empty: fill it in.", Assert.Single(client.Errors));
        await client.Press("Strike out this step", ("Strike.Reason", "written on the wrong repair"));
        await client.Open(At);
        Assert.Contains("struck out: written on the wrong repair", client.Text);
        Assert.Contains("1 piece out", client.Text);
        await client.Open(step);
        await client.Press("Bring it back");
        await client.Open(At);
        Assert.Contains("4 pieces out", client.Text);
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_one_step()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await Begun(app);
        var values = Form(client);
        values["Input.What"] = "Front ring";
        await client.Post($"{At}/bench", values);
        await client.Post($"{At}/bench", values);
        await client.Open(At);
        Assert.Equal(["Front ring"], Steps(client));
    }

    [Fact]
    public async Task A_device_that_was_cut_off_is_answered_with_the_fresh_list_or_with_why_not()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await Begun(app);
        var values = Form(client);
        async Task<string> Send(params (string Name, string Value)[] changed)
        {
            foreach (var (name, value) in changed)
                values[name] = value;
            await client.Send(new HttpRequestMessage(HttpMethod.Post, $"{At}/bench")
            {
                Content = new FormUrlEncodedContent(values),
                Headers = { { "X-Requested-With", "fetch" } },
            });
            return await client.Response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        }

        Assert.Equal("0 can't be a count: write how many came off, 1 to 999; 0 only where shims alone came off.",
            await Send(("Input.What", "Cell spring"), ("Input.Count", "0"), ("Input.FromQueue", "true")));
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "text/plain"), (client.Status, client.Response.Content.Headers.ContentType?.MediaType));
        for (var sent = 0; sent < 3; sent++)
        {
            Assert.StartsWith("<div id=\"recent\"", (await Send(("Input.Count", "1"))).Trim(), StringComparison.Ordinal);
            Assert.Equal("", Assert.Single(client.Response.Headers.GetValues("X-Told")));
        }
        Assert.Equal("A2", client.Page.QuerySelector("#recent")!.GetAttribute("data-next-cell"));
        Assert.Equal(1, await app.WithDb(db => db.StripSteps.CountAsync()));
    }

    [Fact]
    public async Task Two_people_at_one_repair_see_each_others_steps_and_both_values_of_a_clash()
    {
        await using var app = await ShopApp.Start(server);
        using var one = await Begun(app);
        using var other = await app.SignedIn();
        await other.Open($"{At}/bench");
        await Add(one, "Front ring");
        await Add(other, "Front cell");
        await one.Open(At);
        Assert.Equal(["Front ring", "Front cell"], Steps(one));
        var step = Link(one, "Open step 1");
        await one.Open(step);
        await other.Open(step);
        await one.Press("Save step", ("Input.What", "Filter ring"));
        await other.Press("Save step", ("Input.What", "Setting ring"));
        Assert.Equal("What Filter ring Setting ring", string.Join(' ', other.Page.QuerySelectorAll(".changed tbody tr > *").Select(cell => cell.TextContent.Trim())));
        Assert.Equal("Setting ring", other.Value("Input.What"));
        await other.Press("Save step");
        await one.Open(At);
        Assert.Equal(["Setting ring", "Front cell"], Steps(one));
    }

    internal static async Task<FormClient> Begun(ShopApp app)
    {
        await OneRepair.BookedIn(app);
        var client = await app.SignedIn("bench");
        await client.Open($"{At}/bench");
        await client.Press("Use this tray", ("Tray.Rows", "4"), ("Tray.Columns", "6"));
        return client;
    }

    internal static async Task Add(FormClient client, string what, params (string Name, string Value)[] fields)
    {
        if (!client.Url.StartsWith($"{At}/bench", StringComparison.Ordinal))
            await client.Open($"{At}/bench");
        await client.Press("Add step", [("Input.What", what), .. fields]);
        Assert.Equal(HttpStatusCode.OK, client.Status);
        Assert.Empty(client.Errors);
    }

    /// <summary>The address behind a link that begins with these words.</summary>
    internal static string Link(FormClient client, string words) => client.Page.QuerySelectorAll("main a")
        .First(link => string.Join(' ', link.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).StartsWith(words, StringComparison.Ordinal))
        .GetAttribute("href")!;

    private static IEnumerable<string> Steps(FormClient client) => client.Page.QuerySelectorAll(".strip-list .what strong").Select(step => step.TextContent.Trim());

    /// <summary>The bench's form as rendered.</summary>
    private static Dictionary<string, string> Form(FormClient client) => client.Page.QuerySelectorAll("#strip-form input, #strip-form textarea")
        .Where(field => field.GetAttribute("type") is not ("checkbox" or "file") && (field.GetAttribute("type") != "radio" || field.HasAttribute("checked")))
        .ToDictionary(field => field.GetAttribute("name")!, field => field.GetAttribute("value") ?? "");
}
