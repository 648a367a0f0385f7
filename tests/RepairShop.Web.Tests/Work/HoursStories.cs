using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Work;

public class HoursStories(PostgresServer server)
{
    private const string Page = "/repairs/2026-0001/hours";

    private static string Day(int before) => DateTime.UtcNow.AddDays(-before).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Fact]
    public async Task The_clock_runs_over_pages_and_shows_in_the_header()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        await OneRepair.BookedIn(app, "2026-0002");
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/bench");
        await client.Press("Start the clock");
        Assert.Equal("/repairs/2026-0001/bench", client.Url);
        await client.Open("/stock");
        Assert.Contains("2026-0001", client.Page.QuerySelector(".running")!.TextContent);
        await client.Open("/repairs/2026-0002/hours");
        await client.Press("Start the clock");
        Assert.StartsWith("The clock is running here. It was stopped on repair 2026-0001", client.Notice);
        await client.Press("Stop the clock");
        Assert.Null(client.Page.QuerySelector(".running"));
    }

    [Theory]
    [InlineData("-1", "less than nothing")]
    [InlineData("1/0", "is not a length of time")]
    [InlineData("abc", "is not a length of time")]
    [InlineData("25:00", "more than 24 hours")]
    public async Task A_bad_length_gets_its_sentence_and_nothing_is_lost(string length, string says)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Add hours", ("Input.Length", length), ("Input.Activity", "Cleaning <i>blades</i>"));
        Assert.Contains(says, client.Page.QuerySelector("#Input_Length-error")!.TextContent);
        Assert.Equal((length, "Cleaning <i>blades</i>"), (client.Value("Input.Length"), client.Value("Input.Activity")));
        Assert.False(await app.WithDb(db => db.LabourEntries.AnyAsync()));
    }

    [Fact]
    public async Task Work_across_midnight_is_taken_and_said_and_an_overlap_is_named()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Add hours", ("Input.Day", Day(3)), ("Input.From", "22:30"), ("Input.To", "00:45"));
        Assert.StartsWith("2 h 15 min added. It ends on the next day", client.Notice);
        Assert.Contains("22:30–00:45 next day", client.Text);
        await client.Press("Add hours", ("Input.Day", Day(2)), ("Input.From", "00:30"), ("Input.To", "01:00"));
        Assert.Contains("This overlaps your entry on repair 2026-0001", Assert.Single(client.Errors));
        Assert.Equal("00:30", client.Value("Input.From"));
        Assert.Contains("This overlaps your entry", client.Page.QuerySelector("#Input_From-error")!.TextContent);
        Assert.Equal("Input_From-error", client.Page.QuerySelector("#Input_From")!.GetAttribute("aria-describedby"));
    }

    [Fact]
    public async Task The_hour_that_came_twice_is_asked_about()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        // Back in Europe/London: the last Sunday of October, the newest one that has passed.
        var year = DateTime.UtcNow.Month > 10 ? DateTime.UtcNow.Year : DateTime.UtcNow.Year - 1;
        var back = Enumerable.Range(25, 7).Select(day => new DateOnly(year, 10, day)).Single(day => day.DayOfWeek == DayOfWeek.Sunday);
        await app.WithDb(db => db.Repairs.ExecuteUpdateAsync(set => set.SetProperty(row => row.BookedAt, DateTimeOffset.UtcNow.AddYears(-2))));
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        var day = back.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        await client.Press("Add hours", ("Input.Day", day), ("Input.From", "00:30"), ("Input.To", "01:30"));
        Assert.Contains("01:30 came twice", client.Page.QuerySelector("#Input_To-error")!.TextContent);
        await client.Press("Add hours", ("Input.Which", "Second"));
        Assert.StartsWith("2 h added. The clocks changed in between", client.Notice);
    }

    [Fact]
    public async Task A_correction_shows_the_old_value_beside_the_new_one()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Add hours", ("Input.Length", "1:30"));
        await client.Open(client.Page.QuerySelector("td a[href*='/hours/']")!.GetAttribute("href")!);
        await client.Press("Save the correction", ("Input.Length", "2 h"));
        Assert.Contains("Say in a word why", client.Text);
        await client.Press("Save the correction", ("Input.Length", "2 h"), ("Reason", "forgot the test"));
        Assert.Contains("1 h 30 min: forgot the test", client.Text);
        Assert.Contains("2 h", client.Page.QuerySelector("h2 .count")!.TextContent);
    }

    [Fact]
    public async Task Of_two_tabs_that_correct_one_entry_the_later_is_shown_both_values_and_may_then_save()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        using var other = await app.SignedIn();
        await client.Open(Page);
        await client.Press("Add hours", ("Input.Length", "1:30"));
        var form = client.Page.QuerySelector("td a[href*='/hours/']")!.GetAttribute("href")!;
        await client.Open(form);
        await other.Open(form);
        await client.Press("Save the correction", ("Input.Length", "2 h"), ("Reason", "forgot the test"));
        await other.Press("Save the correction", ("Input.Length", "3 h"), ("Reason", "forgot the wash"));
        Assert.Contains("Somebody else changed this", Assert.Single(other.Errors));
        Assert.Equal("Length2 h3 h", string.Concat(other.Page.QuerySelectorAll(".changed tbody tr > *").Select(cell => cell.TextContent.Trim())));
        Assert.Equal(("3 h", "forgot the wash"), (other.Value("Input.Length"), other.Value("Reason")));
        await other.Press("Save the correction");
        Assert.Contains("3 h", other.Page.QuerySelector("h2 .count")!.TextContent);
    }
}
