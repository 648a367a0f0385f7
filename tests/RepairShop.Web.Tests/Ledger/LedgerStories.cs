using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Ledger;

/// <summary>The owner reads the ledger and the figures, hands a month to the accountant and closes it, without script.</summary>
public sealed class LedgerStories(PostgresServer server)
{
    private const string Number = "2026-0001";

    /// <summary>One invoice of 60.00 and 12.60 tax, paid half.</summary>
    private static async Task<(ShopApp App, FormClient Owner, DateOnly Today)> Billed(PostgresServer server)
    {
        var app = await ShopApp.Start(server, ("Mail:Host", ""));
        var today = DateOnly.FromDateTime(DateTime.UtcNow);
        await app.WithDb(async db =>
        {
            var shop = await db.Shop.SingleAsync();
            (shop.Name, shop.Currency, shop.LabourRate, shop.TaxRegistered, shop.Locale, shop.TimeZone) = ("Tern Street Cameras", "EUR", 60, true, "en-IE", "Etc/UTC");
            var customer = new Customer { Name = "=Łukasz <b>Example</b>", CreatedAt = DateTimeOffset.UtcNow };
            var camera = new Camera { OwnerId = customer.Id, Maker = "Example Works", Model = "Model 3", CreatedAt = DateTimeOffset.UtcNow };
            var repair = new Repair { Number = Number, CustomerId = customer.Id, CameraId = camera.Id, BookedAt = DateTimeOffset.UtcNow.AddDays(-1), Complaint = "Drags", PreApprovedLimit = 500 };
            db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 21, IsDefault = true });
            db.AddRange(customer, camera, repair, new LabourEntry
            {
                RepairId = repair.Id,
                WorkerId = await db.Users.Select(person => person.Id).FirstAsync(),
                WorkDate = today,
                Minutes = 60,
                CreatedAt = DateTimeOffset.UtcNow,
            });
            return await db.SaveChangesAsync();
        });
        var owner = await app.SignedIn();
        await owner.Open($"/repairs/{Number}/invoice");
        await owner.Press("As worked, €72.60");
        await owner.Press("Issue invoice");
        Assert.Empty(owner.Errors);
        await owner.Press("Record payment", ("Payment.Amount", "36.30"));
        Assert.Empty(owner.Errors);
        return (app, owner, today);
    }

    [Fact]
    public async Task A_balance_opens_its_lines_and_a_line_its_paper()
    {
        var (app, owner, today) = await Billed(server);
        await using var _ = app;
        await owner.Open("/ledger");
        Assert.Equal("Ledger, " + today.ToString("MMMM yyyy", System.Globalization.CultureInfo.GetCultureInfo("en-IE")), owner.Heading);
        Assert.Contains("1100 Receivables €0.00 €72.60 €36.30 €36.30", owner.Text);
        Assert.Contains("Together €0.00 €108.90 €108.90 €0.00", owner.Text);
        await owner.Open(owner.Page.QuerySelectorAll("main th a").First(link => link.TextContent.StartsWith("1100", StringComparison.Ordinal)).GetAttribute("href")!);
        Assert.Contains("=Łukasz <b>Example</b>", owner.Text);
        await owner.Open(owner.Page.QuerySelector("main td a")!.GetAttribute("href")!);
        Assert.Equal($"/repairs/{Number}/invoice", owner.Url.Split('#')[0]);
    }

    [Fact]
    public async Task The_accountant_gets_the_month_with_the_shops_own_account_numbers()
    {
        var (app, owner, today) = await Billed(server);
        await using var _ = app;
        await owner.Open("/ledger/accounts");
        await owner.Press("Save accounts", ("Input[0].Number", "1200"));
        Assert.Contains("1200 stands beside two accounts: give each its own number.", owner.Errors);
        await owner.Press("Save accounts", ("Input[0].Number", "10500"), ("Input[0].Name", "Trade debtors"));
        Assert.Equal("The accounts are saved.", owner.Notice);
        var file = Encoding.UTF8.GetString(await owner.Http.GetByteArrayAsync($"/ledger?handler=File&month={today:yyyy-MM}", TestContext.Current.CancellationToken)); // with its byte order mark
        var lines = file.Split("\r\n");
        Assert.Equal("\uFEFFentry,line,date,source,account,account name,debit,credit,currency,tax,tax percent,paper,repair,text", lines[0]);
        Assert.Equal($"1,1,{today:yyyy-MM-dd},Invoice,10500,Trade debtors,72.60,,EUR,,,I-{today.Year}-0001,{Number},'=Łukasz <b>Example</b>", lines[1]);
        Assert.Equal($"1,3,{today:yyyy-MM-dd},Invoice,2100,Tax on sales,,12.60,EUR,Standard,21,I-{today.Year}-0001,{Number},'=Łukasz <b>Example</b>", lines[3]);
        Assert.Equal(7, lines.Length); // a header, five lines, and the end
    }

    [Fact]
    public async Task A_month_that_is_over_is_closed_after_it_is_ticked_and_takes_no_payment_any_more()
    {
        var (app, owner, today) = await Billed(server);
        await using var _ = app;
        await owner.Open("/ledger");
        Assert.Contains("is still running", owner.Text);
        var last = new DateOnly(today.Year, today.Month, 1).AddDays(-1);
        var name = last.ToString("MMMM yyyy", System.Globalization.CultureInfo.GetCultureInfo("en-IE"));
        await owner.Open($"/ledger?month={last:yyyy-MM}");
        await owner.Press($"Close {name}");
        Assert.Contains("The month is not closed: tick that it may be, then close it.", owner.Errors);
        await owner.Press($"Close {name}", ("sure", "true"));
        Assert.Equal($"{name} is closed.", owner.Notice);
        Assert.Contains("nothing is written into it any more", owner.Text);
        await owner.Open($"/repairs/{Number}/invoice");
        await owner.Press("Record payment", ("Payment.Amount", "1"), ("Payment.PaidOn", $"{last:yyyy-MM-dd}"));
        Assert.Contains("That day lies in a month that is closed: choose a later day.", owner.Errors);
    }

    [Fact]
    public async Task A_figure_opens_what_is_behind_it_and_can_be_had_as_a_file()
    {
        var (app, owner, today) = await Billed(server);
        await using var _ = app;
        await owner.Open("/figures");
        Assert.Equal($"Figures of {today.Year}", owner.Heading);
        Assert.Equal(9, owner.Page.QuerySelectorAll("section.figure").Length);
        Assert.NotNull(owner.Page.QuerySelector("#revenue svg.chart"));
        await owner.Open(owner.Page.QuerySelectorAll("#revenue tbody th a")[^1].GetAttribute("href")!);
        Assert.Contains($"I-{today.Year}-0001 · =Łukasz <b>Example</b>", owner.Text);
        await owner.Open(owner.Page.QuerySelector("main tbody th a")!.GetAttribute("href")!);
        Assert.Equal($"/repairs/{Number}/invoice", owner.Url.Split('#')[0]);
        var file = Encoding.UTF8.GetString(await owner.Http.GetByteArrayAsync($"/figures/tax?handler=File&of={today:yyyy-MM}", TestContext.Current.CancellationToken)); // with its byte order mark
        Assert.Equal("\uFEFFkey,Rate,Billed without tax (EUR),Tax by day of issue (EUR),Tax by day of payment (EUR)\r\n21|Standard,\"Standard, 21 %\",60.00,12.60,6.30\r\n", file);
    }

    [Theory]
    [InlineData(Roles.Counter)]
    [InlineData(Roles.Bench)]
    public async Task Figures_and_ledger_are_the_owners_alone(string role)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn(role);
        foreach (var path in new[] { "/figures", "/figures/tax?handler=File", "/figures/tax/behind", "/ledger", "/ledger?handler=File", "/ledger/lines", "/ledger/accounts" })
        {
            await client.Open(path);
            Assert.Equal(HttpStatusCode.Forbidden, client.Status);
        }
    }
}
