using System.Net;
using System.Text;
using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Accounts;
using RepairShop.Services.Banking;
using RepairShop.Testing;
using RepairShop.Testing.Banking;
using RepairShop.Web.Tests.Invoices;
using Xunit;

namespace RepairShop.Web.Tests.Banking;

/// <summary>From a bank's file to paid invoices, without script. Invoices are of 72.60 and of one customer.</summary>
public sealed class BankingStories(PostgresServer server)
{
    private static string Today => DateTime.UtcNow.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    [Fact]
    public async Task A_statement_is_read_in_and_its_ticked_lines_are_booked_and_one_of_them_undone()
    {
        var (app, client, customer) = await CustomerMoneyStories.Billed(server, 3);
        await using var _ = app;
        await client.Open("/invoices");
        await client.Open(client.Page.QuerySelectorAll("main nav a").Single(link => link.TextContent == "Bank statements").GetAttribute("href")!);
        Assert.Contains("Ask your bank’s site for the statement of account as CAMT.053", client.Text);
        await Send(client, Paid("72.60", Invoice(1)), Paid("80.00", $"{Invoice(2)} and a bit"), Paid("72.60", "no word of it"), Paid("5.00", "?"), CamtFiles.Entry("9.00", direction: "DBIT", day: Today));
        Assert.Equal("The statement is read in. Nothing is booked yet.", client.Notice);
        Assert.Contains("Waiting 4", client.Text);
        Assert.Equal(0, await app.WithDb(db => db.Receipts.CountAsync()));
        Assert.Equal(["true", "false", "false"], Ticks(client)); // what is sure is ticked beforehand, nothing else
        Assert.Contains("Reference and amount agree", client.Text);
        Assert.Contains("Reference agrees, €7.40 too much", client.Text);
        Assert.Contains("The amount alone fits", client.Text);
        Assert.Contains("Nothing fits", client.Text);
        await client.Press("Book the ticked ones", ("Lines[1].Ticked", "true"));
        Assert.Equal("2 lines are booked, €152.60 together.", client.Notice);
        Assert.Contains("Waiting 2", client.Text);
        await client.Open($"/customers/{customer}");
        Assert.Contains("€7.40", client.Text); // kept as credit
        await client.Open(await Statement(app) + "?show=All");
        Assert.Contains("money out, not booked here", client.Text);
        await client.Open(client.Page.QuerySelector(".bank-lines td:last-child div > a")!.GetAttribute("href")!);
        await client.Press("Undo the booking");
        Assert.Equal("The booking is taken back; the line waits again.", client.Notice);
        Assert.Contains("Reference and amount agree", client.Text);
    }

    [Fact]
    public async Task A_line_is_booked_otherwise_or_set_aside_and_what_was_typed_stays_when_it_is_refused()
    {
        var (app, client, customer) = await CustomerMoneyStories.Billed(server, 2);
        await using var _ = app;
        await client.Open("/banking");
        await Send(client, Paid("100.00", "deposit?"), Paid("3.00", "mine"));
        var lines = client.Page.QuerySelectorAll(".bank-lines td:last-child div > a").Select(link => link.GetAttribute("href")!).ToList();
        await client.Open(lines[0] + "?q=nobody-at-all");
        Assert.Contains("No open invoice and no customer fits “nobody-at-all”.", client.Text);
        await client.Press("Find", ("q", Invoice(2)));
        await client.Open(client.Page.QuerySelector(".picks a")!.GetAttribute("href")!);
        Assert.Equal(("72.6", "27.4"), (client.Value("Input.Shares[0].Amount"), client.Value("Input.Shares[1].Amount")));
        await client.Press("Book it", ("Input.Shares[0].Amount", "73"));
        Assert.StartsWith("73.00 EUR is more than the 72.60 EUR still owed", Assert.Single(client.Errors));
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "73", "27.4"), (client.Status, client.Value("Input.Shares[0].Amount"), client.Value("Input.Shares[1].Amount")));
        await client.Press("Book it", ("Input.Shares[0].Amount", "20"), ("Input.Shares[1].Amount", "72.60"));
        Assert.Equal("€100.00 is booked.", client.Notice);
        await client.Open(lines[1]);
        await client.Press("Set it aside");
        Assert.StartsWith("The reason is empty", Assert.Single(client.Errors));
        await client.Press("Set it aside", ("Aside.Reason", "Own money <b>moved</b>"));
        Assert.Contains("Own money <b>moved</b>", client.Text);
        await client.Open(await Statement(app));
        Assert.Contains("No line waits", client.Text);
        await client.Open(lines[1]);
        await client.Press("Take it up again");
        await client.Open(lines[1] + $"?customer={customer}");
        await client.Press("Book it", ("Input.Shares[0].Amount", ""));
        Assert.Equal("€3.00 is booked.", client.Notice);
        await client.Open($"/customers/{customer}");
        Assert.Contains("€10.40", client.Text); // 7.40 and 3.00 kept as credit
    }

    [Fact]
    public async Task Of_two_people_at_the_same_line_the_second_is_told()
    {
        var (app, client, _) = await CustomerMoneyStories.Billed(server, 1);
        await using var __ = app;
        using var counter = await app.SignedIn(Roles.Counter);
        await client.Open("/banking");
        await Send(client, Paid("72.60", Invoice(1)), Paid("4.00", "?"));
        await counter.Open(await Statement(app));
        await client.Press("Book the ticked ones");
        await counter.Press("Book the ticked ones");
        Assert.Equal("Nothing was booked.", counter.Notice);
        Assert.Contains("is not booked. This line is booked already", counter.Text);
        await counter.Open(await Statement(app));
        Assert.DoesNotContain("booked already", counter.Text);
    }

    [Fact]
    public async Task Nothing_ticked_or_several_that_fit_without_a_choice_is_told()
    {
        var (app, client, _) = await CustomerMoneyStories.Billed(server, 2);
        await using var __ = app;
        await client.Open("/banking");
        await Send(client, Paid("72.60", "no word of it"));
        Assert.Contains("Several fit: choose one", client.Text);
        await client.Press("Book the ticked ones");
        Assert.StartsWith("No line is ticked", Assert.Single(client.Errors));
        await client.Press("Book the ticked ones", ("Lines[0].Ticked", "true"));
        Assert.StartsWith("One ticked line has several things that fit", Assert.Single(client.Errors));
        await client.Press("Book the ticked ones", ("Lines[0].Ticked", "true"), ("Lines[0].Choice", client.Page.QuerySelector("input[type=radio]")!.GetAttribute("value")!));
        Assert.Equal("One line is booked, €72.60.", client.Notice);
    }

    [Fact]
    public async Task A_table_goes_through_the_choice_of_its_columns()
    {
        var (app, client, _) = await CustomerMoneyStories.Billed(server, 1);
        await using var __ = app;
        await client.Open("/banking");
        await client.Upload("Read it in", "Input.File", "moves.csv", Encoding.UTF8.GetBytes($"Day;Who;Note;Sum\n{Today};Łukasz Example;{Invoice(1)};72,60\n"));
        Assert.Equal("Which column is what?", client.Heading);
        Assert.Equal(("0", "3", "True"), (client.Value("Input.Date"), client.Value("Input.Amount"), client.Value("Input.DecimalComma")));
        await client.Press("Read it in", ("Input.Date", ""), ("Input.Text", "2"));
        Assert.Equal("The day has no column: choose which one it is.", Assert.Single(client.Errors));
        Assert.Equal("2", client.Value("Input.Text"));
        await client.Press("Read it in", ("Input.Date", "0"), ("Input.Name", "1"));
        Assert.Contains("moves.csv", client.Text);
        await client.Press("Book the ticked ones");
        Assert.Equal("One line is booked, €72.60.", client.Notice);
        await client.Open("/banking/columns?key=" + new string('f', 64));
        Assert.Equal("/banking", client.Url);
    }

    [Fact]
    public async Task Another_file_is_refused_with_what_to_do()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn(Roles.Counter);
        async Task Refused(string start, byte[] bytes)
        {
            await client.Open("/banking");
            await client.Upload("Read it in", "Input.File", "file", bytes);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
            Assert.StartsWith(start, Assert.Single(client.Errors));
        }

        await Refused("This is a PDF", "%PDF-1.7"u8.ToArray());
        await Refused("The file is empty", []);
        await Refused("The file has 10 MB", new byte[StatementImportService.MostBytes + 1]);
        await Refused("Entry 1: “1e9” is no amount", CamtFiles.File(CamtFiles.Entry("1e9")));
        await Refused("On top, before its first element", "<?xml version=\"1.0\"?><!DOCTYPE d [<!ENTITY a \"a\">]><d>&a;</d>"u8.ToArray());
        await client.Open("/banking");
        await client.Press("Read it in");
        Assert.StartsWith("No file was chosen", Assert.Single(client.Errors));
    }

    [Fact]
    public async Task Many_lines_are_shown_a_page_at_a_time()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/banking");
        await Send(client, [.. Enumerable.Range(1, BankReadService.LinesAPage + 1).Select(i => Paid($"{i}.00", "x"))]);
        Assert.Equal(BankReadService.LinesAPage, client.Page.QuerySelectorAll(".bank-lines tbody tr").Length);
        await client.Open(client.Page.QuerySelector(".pager a")!.GetAttribute("href")!);
        Assert.Contains("€41.00", Assert.Single(client.Page.QuerySelectorAll(".bank-lines tbody tr")).TextContent);
    }

    private static string Invoice(int number) => $"I-{DateTime.UtcNow.Year}-{number:0000}";

    private static string Paid(string amount, string text) => CamtFiles.Paid(amount, "Somebody", text, day: Today);

    private static Task Send(FormClient client, params string[] entries) => client.Upload("Read it in", "Input.File", "statement.xml", CamtFiles.File(entries));

    private static async Task<string> Statement(ShopApp app) => "/banking/" + await app.WithDb(db => db.BankStatements.Select(row => row.Id).SingleAsync());

    private static IEnumerable<string> Ticks(FormClient client) =>
        client.Page.QuerySelectorAll(".bank-lines input[type=checkbox]").OfType<IHtmlInputElement>().Select(box => box.IsChecked ? "true" : "false");
}
