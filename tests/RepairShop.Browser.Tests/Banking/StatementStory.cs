using System.Text;
using Microsoft.Playwright;
using RepairShop.Browser.Tests.WholeJob;
using RepairShop.Testing;
using RepairShop.Testing.Banking;
using Xunit;

namespace RepairShop.Browser.Tests.Banking;

/// <summary>A bank's file is dropped in on a phone, looked through, and pays an invoice.</summary>
public sealed class StatementStory(PostgresServer server, Chromium chromium)
{
    [Fact]
    public async Task From_the_file_to_the_paid_invoice()
    {
        await using var shop = await ShopProcess.StartAsync(server, demo: false, TestContext.Current.CancellationToken);
        await using var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true });
        var hands = new TouchHands(await context.NewPageAsync());
        var number = await Money.BeginAsync(hands, shop);
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^As estimated") }));
        await hands.PressAsync("Issue invoice");
        var invoice = await hands.Page.Locator("section[id]").First.GetAttributeAsync("id") ?? "";
        var owed = (await hands.Page.Locator("dl.facts dd strong").InnerTextAsync()).TrimStart('€');
        await ReadInAsync(hands, invoice, owed);
        await hands.PressAsync("Book the ticked ones");
        await Assertions.Expect(hands.Page.Locator(".notice")).ToContainTextAsync($"One line is booked, €{owed}.");
        await hands.GoAsync($"{shop.Address}/repairs/{number}/invoice");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("Settled.");
    }

    private static async Task ReadInAsync(Hands hands, string invoice, string owed)
    {
        await hands.FollowAsync("Money");
        await hands.FollowAsync("Bank statements");
        await hands.ExpectNothingForAxeAsync();
        await SendAsync(hands, "moves.csv", Encoding.UTF8.GetBytes("Date;Who;Sum\n2026-11-02;Somebody;12,00\n"));
        await Assertions.Expect(hands.Page.Locator("h1")).ToHaveTextAsync("Which column is what?");
        await hands.ExpectNothingForAxeAsync();
        await hands.BackAsync();
        await SendAsync(hands, "statement.xml", CamtFiles.File(
            CamtFiles.Paid(owed, Figures.Customer.ToUpperInvariant(), $"Invoice {invoice.Replace('-', ' ')}"), CamtFiles.Paid("12.00", "Somebody", "no word of it")));
        await Assertions.Expect(hands.Page.Locator(".bank-lines tbody tr").First).ToContainTextAsync("Reference and amount agree");
        await Assertions.Expect(hands.Page.Locator(".bank-lines input[type=checkbox]")).ToBeCheckedAsync();
        await hands.ExpectNothingForAxeAsync();
    }

    private static async Task SendAsync(Hands hands, string name, byte[] bytes)
    {
        await hands.Field("Statement").SetInputFilesAsync(new FilePayload { Name = name, MimeType = "text/plain", Buffer = bytes });
        await hands.PressAsync("Read it in");
    }
}
