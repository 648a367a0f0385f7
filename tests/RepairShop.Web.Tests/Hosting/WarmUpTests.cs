using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

/// <summary>The pages written ahead after a start are the real ones, and nothing but a line in the log comes of them.</summary>
public partial class WarmUpTests(PostgresServer server)
{
    [GeneratedRegex(@"Bench \((?<bench>\d+) bytes\) and sheet \((?<sheet>\d+) bytes\) were written ahead in \d+ ms")]
    private static partial Regex Line();

    [Fact]
    public async Task The_bench_and_a_sheet_are_written_whole_and_the_book_stays_as_it_was()
    {
        await using var app = await ShopApp.Start(server);
        var number = await OneRepair.BookedIn(app);
        using var client = await app.SignedIn();
        var lines = await app.WithDb(db => db.Audit.CountAsync());
        var line = await WarmedAsync(app, Line());
        Assert.Equal(lines, await app.WithDb(db => db.Audit.CountAsync()));
        Assert.InRange(Bytes(line, "bench"), await Near(client, "/bench"), int.MaxValue);
        Assert.InRange(Bytes(line, "sheet"), await Near(client, $"/repairs/{number}"), int.MaxValue);
    }

    [Fact]
    public async Task What_goes_wrong_is_one_line_and_the_program_answers()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        await app.WithDb(db => db.Database.ExecuteSqlAsync($"alter table photos rename to mislaid"));
        using var client = await app.SignedIn();
        var line = await WarmedAsync(app, new Regex("The first pages were not written ahead: (?<why>.*)"));
        Assert.Equal("PostgresException", line.Groups["why"].Value.Trim());
        await client.Open("/health/ready");
        Assert.Equal(HttpStatusCode.OK, client.Status);
    }

    /// <summary>Tests start without it: begun once more, now that there is a repair.</summary>
    private static async Task<Match> WarmedAsync(ShopApp app, Regex line)
    {
        app.Services.GetRequiredService<IConfiguration>()["WarmUp"] = "true";
        await app.Services.GetServices<IHostedService>().Single(service => service.GetType().Name == "WarmUp").StartAsync(TestContext.Current.CancellationToken);
        for (var waited = 0; waited < 600; waited++)
        {
            if (line.Match(app.Log()) is { Success: true } found)
                return found;
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
        throw new TimeoutException($"Not in the log: {line}");
    }

    private static int Bytes(Match line, string page) => int.Parse(line.Groups[page].Value, CultureInfo.InvariantCulture);

    /// <summary>Nine tenths of the page as somebody signed in gets it: names and tokens differ.</summary>
    private static async Task<int> Near(FormClient client, string page)
    {
        await client.Open(page);
        return client.Page.Source.Text.Length * 9 / 10;
    }
}
