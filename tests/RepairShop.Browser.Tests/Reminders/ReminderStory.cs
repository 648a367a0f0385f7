using System.Text.RegularExpressions;
using Microsoft.Playwright;
using RepairShop.Browser.Tests.Pages;
using RepairShop.Browser.Tests.WholeJob;
using Xunit;

namespace RepairShop.Browser.Tests.Reminders;

/// <summary>Late money in the demo workshop: a letter is looked at and sent on a phone, a hold is lifted by keyboard alone.</summary>
public sealed partial class ReminderStory(DemoShop demo) : IClassFixture<DemoShop>
{
    [Fact]
    public async Task A_letter_is_read_before_it_goes_out_and_another_waits_until_its_hold_is_lifted()
    {
        await using var phone = await demo.SignInAsync(new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true });
        await SendAsync(new TouchHands(await phone.NewPageAsync()));
        await using var desk = await demo.SignInAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
        await LiftAsync(new KeyboardHands(await desk.NewPageAsync()));
    }

    private async Task SendAsync(Hands hands)
    {
        await hands.GoAsync($"{demo.Shop.Address}/bench");
        await hands.FollowAsync("Money");
        await hands.FollowAsync("Reminders");
        var boxes = hands.Page.Locator("input[name=ticked]");
        var due = await boxes.CountAsync();
        Assert.True(due > 0, "Nothing is due in the demo workshop.");
        await hands.ExpectNothingForAxeAsync();

        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Link, new() { NameRegex = new(": look at the letter$") }).First);
        var asked = await hands.Page.Locator("tr.total td").InnerTextAsync();
        var invoice = await hands.Page.Locator("table.list tbody strong").First.InnerTextAsync();
        await hands.ExpectNothingForAxeAsync();
        await hands.FollowAsync("Not now");
        Assert.Equal(due, await boxes.CountAsync());

        await hands.TickAsync(hands.Page.GetByLabel(new Regex($" of {Regex.Escape(invoice)}$")).First);
        await hands.PressAsync("Send the ticked ones");
        await Assertions.Expect(hands.Page.Locator(".notice")).ToContainTextAsync("The reminder goes out by e-mail.");
        await Assertions.Expect(boxes).ToHaveCountAsync(due - 1);
        await hands.ExpectNothingForAxeAsync();

        var sent = await hands.Page.GetByRole(AriaRole.Link, new() { NameRegex = Letter() }).First.InnerTextAsync();
        var (_, paper) = await Papers.LetterAsync(demo.Shop, Letter().Match(sent).Groups[1].Value);
        Assert.Contains(invoice, paper, StringComparison.Ordinal);
        Assert.Contains(asked, paper, StringComparison.Ordinal);
    }

    private async Task LiftAsync(Hands hands)
    {
        await hands.GoAsync($"{demo.Shop.Address}/invoices/reminders");
        var due = await hands.Page.Locator("input[name=ticked]").CountAsync();
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Lift the hold") }).First);
        await Assertions.Expect(hands.Page.Locator("input[name=ticked]")).ToHaveCountAsync(due + 1);
        await hands.ExpectNothingForAxeAsync();
    }

    [GeneratedRegex(@"^(R-\d{4}-\d{4}) \(PDF\)$")]
    private static partial Regex Letter();
}
