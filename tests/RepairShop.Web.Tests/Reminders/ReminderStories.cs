using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using RepairShop.Web.Tests.Invoices;
using Xunit;

namespace RepairShop.Web.Tests.Reminders;

/// <summary>Late money asked for at the counter, without script: three invoices of 72.60, due eight days ago.</summary>
public sealed class ReminderStories(PostgresServer server)
{
    private static string Invoice(int number) => $"I-{DateTime.UtcNow.Year}-{number:0000}";

    private static string Letter(int number) => $"R-{DateTime.UtcNow.Year}-{number:0000}";

    /// <summary>Invoices keep the day they are due, so the shop's term is set before they are issued.</summary>
    private static Task<(ShopApp App, FormClient Client, Guid Customer)> Late(PostgresServer server) => CustomerMoneyStories.Billed(server, 3, paymentTermDays: -8);

    private static string Ticked(FormClient client, int row) => client.Page.QuerySelectorAll("main input[name=ticked]")[row].GetAttribute("value")!;

    [Fact]
    public async Task Nothing_is_ticked_the_letter_is_looked_at_and_the_ticked_go_out_as_one()
    {
        var (app, client, customer) = await Late(server);
        await using var _ = app;
        await client.Open("/invoices");
        await client.Open(client.Page.QuerySelectorAll("main nav a").Single(link => link.TextContent == "Reminders").GetAttribute("href")!);
        Assert.Equal("Reminders", client.Heading);
        Assert.Equal(3, client.Page.QuerySelectorAll("main input[name=ticked]").Length);
        Assert.Empty(client.Page.QuerySelectorAll("main input[checked]"));
        await client.Press("Send the ticked ones");
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "No invoice is ticked: tick those a reminder is to be sent of."), (client.Status, Assert.Single(client.Errors)));

        await client.Open($"/invoices/reminders/letter/{customer}/EUR");
        Assert.Equal("Friendly note", client.Heading);
        Assert.Contains("Dear Łukasz <b>Example</b>", client.Text);
        Assert.DoesNotContain("<b>Example", client.Page.Body!.InnerHtml);
        Assert.Contains("€217.80", client.Text);
        Assert.Contains("If your payment has crossed this letter, please disregard it.", client.Text);

        await client.Open("/invoices/reminders");
        var (first, second) = (Ticked(client, 0), Ticked(client, 1));
        await client.Post("/invoices/reminders?handler=Send", [new("ticked", first), new("ticked", second), new("__RequestVerificationToken", client.Value("__RequestVerificationToken")!)]);
        Assert.Equal("The reminder goes out by e-mail.", client.Notice);
        Assert.Contains($"{Letter(1)} (PDF)", client.Text);
        Assert.Contains("€145.20", client.Text);
        // The same page, sent from another window.
        await client.Post("/invoices/reminders?handler=Send", [new("ticked", first), new("__RequestVerificationToken", client.Value("__RequestVerificationToken")!)]);
        Assert.Equal($"A reminder of {Invoice(1)} was sent today already: wait for the day it names.", Assert.Single(client.Errors));

        await client.Open("/repairs/2026-0001/invoice");
        Assert.Contains($"{Letter(1)} (PDF), Friendly note,", client.Text);
        await client.Open(client.Page.QuerySelectorAll("main a").Single(link => link.TextContent.StartsWith(Letter(1), StringComparison.Ordinal)).GetAttribute("href")! + "/read");
        Assert.Equal("Friendly note", client.Heading);
        Assert.Contains("8 days late", client.Text);
    }

    [Fact]
    public async Task An_invoice_in_dispute_is_held_back_with_its_reason_and_nothing_typed_is_lost()
    {
        var (app, client, _) = await Late(server);
        await using var __ = app;
        await client.Open("/repairs/2026-0002/invoice");
        await client.Press("Hold reminders back", ("Hold.Reason", "The meter still sticks"), ("Hold.Until", $"{DateTime.UtcNow:yyyy-MM-dd}"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("is not ahead: choose a day after today", client.Text);
        Assert.Equal("The meter still sticks", client.Value("Hold.Reason"));
        await client.Press("Hold reminders back", ("Hold.Until", $"{DateTime.UtcNow.AddDays(9):yyyy-MM-dd}"));
        Assert.Equal("No reminder goes out before that day.", client.Notice);
        await client.Open("/invoices/reminders");
        Assert.Equal(2, client.Page.QuerySelectorAll("main input[name=ticked]").Length);
        Assert.Contains("The meter still sticks", client.Text);
        await client.Press($"Lift the hold of {Invoice(2)}");
        Assert.Equal("The hold is lifted: reminders may go out again.", client.Notice);
        Assert.Equal(3, client.Page.QuerySelectorAll("main input[name=ticked]").Length);
    }

    [Fact]
    public async Task A_fee_is_asked_for_after_a_warning_told_on_the_letter_and_taken_out_of_what_was_paid()
    {
        var (app, client, customer) = await Late(server);
        await using var _ = app;
        await app.WithDb(db => db.Customers.Where(row => row.Id == customer).ExecuteUpdateAsync(set => set.SetProperty(row => row.Email, "")));
        await client.Open("/shop/reminders");
        Assert.Contains("Only charge a fee where your law and your conditions allow it; check your local rules.", client.Text);
        await client.Press("The fees are lawful here: ask for them");
        await client.Open("/shop/reminders/1");
        await client.Press("Save step", ("Input.Fee", "5"), ("Input.Text", "Dear {name}"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("{name}", client.Text);
        await client.Press("Preview", ("Input.Text", "Dear {customer}, {total} by {due}"));
        Assert.Contains("Dear Ines Halloway, €238.00 by", client.Text);
        await client.Press("Save step");
        Assert.Equal("The step is saved.", client.Notice);

        await client.Open("/invoices/reminders");
        await client.Press($"Send the reminder of {Invoice(1)} alone");
        Assert.Equal("The reminder is made: print it below and mark it as posted.", client.Notice);
        Assert.Contains("€72.60 and a fee of €5.00", client.Text);
        await client.Press($"Mark as posted: {Letter(1)}");
        Assert.Equal("The letter is marked as posted.", client.Notice);

        await client.Open($"/customers/{customer}/money");
        Assert.Contains("Owes€217.80", client.Text);
        await client.Press("Record money", ("Input.Amount", "77.60"), ("Input.Shares[0].Amount", "72.60"), ("Input.Shares[1].Amount", ""), ("Input.Shares[2].Amount", ""), ("Input.KeepsRest", "true"));
        await client.Press($"Take it out of the credit: fee of {Letter(1)}");
        Assert.Equal("The fee is taken out of the credit and booked.", client.Notice);
        Assert.Contains("Creditnone", client.Text);
        Assert.Contains($"Fee, out of credit, {Letter(1)}", client.Text);
    }

    [Fact]
    public async Task Where_nobody_is_late_the_page_says_so_and_the_settings_are_the_owners()
    {
        await using var app = await ShopApp.Start(server);
        var client = await app.SignedIn(Roles.Counter);
        await client.Open("/invoices/reminders");
        Assert.Contains("Nobody is late.", client.Text);
        Assert.DoesNotContain("Steps and texts", client.Text);
        await client.Open("/shop/reminders");
        Assert.NotEqual("Reminders", client.Heading);
        await client.Open($"/invoices/reminders/letter/{Guid.NewGuid()}/EUR");
        Assert.Equal(HttpStatusCode.NotFound, client.Status);
    }
}
