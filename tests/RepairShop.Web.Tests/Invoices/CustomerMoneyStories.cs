using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Invoices;

/// <summary>One transfer for several invoices, credit, and what is not to be had, without script.</summary>
public sealed class CustomerMoneyStories(PostgresServer server)
{
    private static string Invoice(int number) => $"I-{DateTime.UtcNow.Year}-{number:0000}";

    /// <summary>A customer with as many invoices of 72.60.</summary>
    internal static async Task<(ShopApp App, FormClient Client, Guid Customer)> Billed(PostgresServer server, int invoices, int paymentTermDays = 14)
    {
        var app = await ShopApp.Start(server, ("Mail:Host", ""));
        var customer = new Customer { Name = "Łukasz <b>Example</b>", Email = "lukasz@example.com", CreatedAt = DateTimeOffset.UtcNow };
        await app.WithDb(async db =>
        {
            var shop = await db.Shop.SingleAsync();
            (shop.Name, shop.Currency, shop.LabourRate, shop.TaxRegistered, shop.Locale, shop.TimeZone) = ("Tern Street Cameras", "EUR", 60, true, "en-IE", "Etc/UTC");
            shop.PaymentTermDays = paymentTermDays;
            db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 21, IsDefault = true });
            db.Add(customer);
            var worker = await db.Users.Select(person => person.Id).FirstAsync();
            for (var number = 1; number <= invoices; number++)
            {
                var camera = new Camera { OwnerId = customer.Id, Maker = "Example Works", Model = $"Model {number}", CreatedAt = DateTimeOffset.UtcNow };
                var repair = new Repair { Number = $"2026-{number:0000}", CustomerId = customer.Id, CameraId = camera.Id, BookedAt = DateTimeOffset.UtcNow.AddDays(-1), Complaint = "Drags", PreApprovedLimit = 500 };
                db.AddRange(camera, repair, new LabourEntry { RepairId = repair.Id, WorkerId = worker, WorkDate = DateOnly.FromDateTime(DateTime.UtcNow), Minutes = 60, CreatedAt = DateTimeOffset.UtcNow });
            }
            return await db.SaveChangesAsync();
        });
        var client = await app.SignedIn();
        for (var number = 1; number <= invoices; number++)
        {
            await client.Open($"/repairs/2026-{number:0000}/invoice");
            await client.Press("As worked, €72.60");
            await client.Press("Issue invoice");
            Assert.Empty(client.Errors);
        }
        return (app, client, customer.Id);
    }

    [Fact]
    public async Task One_transfer_is_shared_out_oldest_first_and_what_is_over_pays_the_next_invoice()
    {
        var (app, client, customer) = await Billed(server, 3);
        await using var _ = app;
        await client.Open($"/customers/{customer}");
        await client.Open(client.Page.QuerySelectorAll("main .toolbar a").Single(link => link.TextContent == "Money").GetAttribute("href")!);
        Assert.Equal(("217.8", "72.6"), (client.Value("Input.Amount"), client.Value("Input.Shares[2].Amount")));
        await client.Press("Share it out, oldest first", ("Input.Amount", "100"));
        Assert.Equal(("72.6", "27.4", ""), (client.Value("Input.Shares[0].Amount"), client.Value("Input.Shares[1].Amount"), client.Value("Input.Shares[2].Amount") ?? ""));
        await client.Press("Record money", ("Input.Amount", "150"), ("Input.Shares[1].Amount", "72.61"), ("Input.Reference", "statement 7"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Equal($"72.61 EUR is more than the 72.60 EUR still owed on {Invoice(2)}: write that or less, the rest can be kept as credit.", Assert.Single(client.Errors));
        Assert.Equal(("72.61", "statement 7"), (client.Value("Input.Shares[1].Amount"), client.Value("Input.Reference")));
        await client.Press("Record money", ("Input.Shares[1].Amount", "72.60"));
        Assert.StartsWith("4.80 EUR are not shared out", Assert.Single(client.Errors));
        await client.Press("Record money", ("Input.KeepsRest", "true"));
        Assert.Equal("The money is recorded; €4.80 are kept as credit.", client.Notice);
        Assert.Contains($"{Invoice(1)} €72.60 {Invoice(2)} €72.60 credit €4.80", client.Text);

        await client.Open("/repairs/2026-0003/invoice");
        await client.Press("Pay €4.80 with the customer’s credit");
        Assert.Equal("The invoice is paid with the customer’s credit.", client.Notice);
        Assert.Contains("Still owed€67.80", client.Text);
        await client.Open("/repairs/2026-0001/invoice");
        Assert.Contains("Settled.", client.Text);
        Assert.Contains("paid with others", client.Text);
        Assert.DoesNotContain("<b>Example", client.Page.Body!.InnerHtml);
    }

    [Fact]
    public async Task A_receipt_entered_by_mistake_leaves_every_invoice_as_it_was()
    {
        var (app, client, customer) = await Billed(server, 2);
        await using var _ = app;
        await client.Open($"/customers/{customer}/money");
        await client.Press("Record money", ("Input.Amount", "200"), ("Input.KeepsRest", "true"));
        Assert.Contains("Owesnothing", client.Text.Replace("Owes nothing", "Owesnothing"));
        await client.Press("Entered by mistake");
        Assert.Equal("The receipt is taken back by a counter-entry, on every invoice it paid.", client.Notice);
        Assert.Contains("€145.20", client.Text);
        Assert.Contains("Taken back: Received by bank transfer", client.Text);
    }

    [Fact]
    public async Task Credit_of_a_customer_who_owes_nothing_goes_back_as_money()
    {
        var (app, client, customer) = await Billed(server, 0);
        await using var _ = app;
        await client.Open($"/customers/{customer}/money");
        Assert.Contains("what comes now is kept as credit for the next invoice", client.Text);
        await client.Press("Record money", ("Input.Amount", "50"));
        await client.Press("Record money given back", ("Back.Amount", "50.01"));
        Assert.Contains("is more than the customer’s credit of 50.00 EUR", Assert.Single(client.Errors));
        await client.Press("Record money given back", ("Back.Amount", "20"));
        Assert.Contains("Credit given back by bank transfer", client.Text);
        await client.Open($"/customers/{customer}");
        Assert.Contains("€30.00", client.Text);
    }

    [Fact]
    public async Task What_is_not_to_be_had_is_written_off_with_a_reason_and_owed_again_when_that_is_undone()
    {
        var (app, client, _) = await Billed(server, 1);
        await using var __ = app;
        await client.Open("/repairs/2026-0001/invoice");
        await client.Press("Write it off");
        Assert.StartsWith("The reason is empty", Assert.Single(client.Errors));
        await client.Press("Write it off", ("WriteOff.Reason", "Moved away"));
        Assert.Contains("Closed, with a rest written off.", client.Text);
        await client.Open("/invoices");
        Assert.Contains("Every invoice is settled.", client.Text);
        await client.Open("/repairs/2026-0001/invoice");
        await client.Press("Undo");
        Assert.Contains("Still owed€72.60", client.Text);
        Assert.Contains("undone: Moved away", client.Text);
    }

    [Fact]
    public async Task A_statement_is_shown_made_and_mailed_and_its_days_are_kept()
    {
        var (app, client, customer) = await Billed(server, 2);
        await using var _ = app;
        var today = DateOnly.FromDateTime(DateTime.UtcNow);
        await client.Open($"/customers/{customer}/money");
        await client.Press("Record money", ("Input.Amount", "100"), ("Input.Shares[1].Amount", "27.40"));
        await client.Open($"/customers/{customer}/statement?from={today:yyyy-MM-dd}&until={today.AddDays(-1):yyyy-MM-dd}");
        Assert.StartsWith("The last day, ", Assert.Single(client.Errors));
        await client.Open($"/customers/{customer}/statement?from={today:yyyy-MM-dd}");
        Assert.Contains("Closing balance€45.20", client.Text);
        Assert.Contains("Not due yet€45.20", client.Text.Replace("yet €", "yet€"));
        await client.Press("Make it and send it to lukasz@example.com");
        Assert.Contains($"S-{today.Year}-0001 is made and goes out by e-mail", client.Notice);
        await client.Press("Make the paper");
        Assert.Contains($"S-{today.Year}-0002 (PDF)", client.Text);
        Assert.Equal(1, await app.WithDb(db => db.Outbox.CountAsync(mail => mail.Kind == Domain.Post.MailKind.Statement)));
        var paper = await app.WithDb(db => db.Papers.Where(row => row.CustomerId == customer).Select(row => row.Id).FirstAsync());
        await client.Open($"/papers/{paper}/read");
        Assert.Contains("Closing balance€45.20", client.Text);
        Assert.DoesNotContain("<b>Example", client.Page.Body!.InnerHtml);
    }

    [Theory]
    [InlineData(Roles.Bench, HttpStatusCode.Forbidden)]
    [InlineData(Roles.Counter, HttpStatusCode.OK)]
    public async Task A_customers_money_is_for_the_counter(string role, HttpStatusCode status)
    {
        var (app, _, customer) = await Billed(server, 0);
        await using var __ = app;
        using var client = await app.SignedIn(role);
        foreach (var page in new[] { "money", "statement" })
        {
            await client.Open($"/customers/{customer}/{page}");
            Assert.Equal(status, client.Status);
        }
    }

    [Fact]
    public async Task What_was_taken_back_as_a_whole_is_written_anew_with_its_lines()
    {
        var (app, client, _) = await Billed(server, 1);
        await using var __ = app;
        await client.Open("/repairs/2026-0001/invoice");
        Assert.DoesNotContain("anew", client.Text);
        await client.Press($"Credit {Invoice(1)}", ("Credit.Reason", "Wrong address"));
        await client.Press($"Write {Invoice(1)} anew");
        Assert.Equal("The draft has the lines of the invoice that was taken back: put right what was wrong, then issue it.", client.Notice);
        Assert.Equal("60", client.Value("Input.Lines[0].UnitPrice"));
        await client.Press("Issue invoice");
        Assert.Empty(client.Errors);
        Assert.Contains($"Invoice {Invoice(2)}", client.Text);
        Assert.Contains("Still owed€72.60", client.Text);
    }
}
