using Microsoft.Playwright;
using RepairShop.Testing;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>The estimate and its answer, the invoice and its payments.</summary>
internal static class Money
{
    /// <summary>A shop set up by its owner, a camera booked in, an estimate sent and approved; ends at the repair's money.</summary>
    /// <returns>The repair's number.</returns>
    public static async Task<string> BeginAsync(Hands hands, ShopProcess shop)
    {
        await FirstStart.RunAsync(hands, shop);
        var number = await Counter.BookInAsync(hands, shop.Address);
        await hands.GoAsync($"{shop.Address}/repairs/{number}/estimate");
        await EstimateAsync(hands);
        await ApproveAsync(hands);
        await hands.GoAsync($"{shop.Address}/repairs/{number}/invoice");
        return number;
    }

    public static async Task EstimateAsync(Hands hands)
    {
        await hands.TypeAsync("What was seen", "Slow speeds long, slow train full of old oil.");
        await LineAsync(hands, 1, "Labour", "Shutter stripped, cleaned and set", Figures.LowHours, Figures.HighHours, "h", Figures.LabourRate);
        if (await hands.Page.GetByLabel("What, line 2").CountAsync() == 0)
            await hands.PressAsync("Add line");
        await LineAsync(hands, 2, "Part", "Slow-train spring", 1, 1, "pcs", Figures.PartPrice);
        await hands.PressAsync("Send estimate");
        await Assertions.Expect(hands.Page.Locator("main tr.total")).ToContainTextAsync(Figures.Plain(Figures.EstimateLow));
        await Assertions.Expect(hands.Page.Locator("main tr.total")).ToContainTextAsync(Figures.Plain(Figures.EstimateHigh));
    }

    public static async Task ApproveAsync(Hands hands)
    {
        await hands.TickAsync("approved it");
        await hands.TypeAsync("Who", Figures.Customer);
        await hands.ChooseAsync("How", "by phone");
        await hands.PressAsync("Record answer");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("approved it on");
    }

    /// <returns>The invoice's number.</returns>
    public static async Task<string> InvoiceAsync(Hands hands)
    {
        await hands.PressAsync($"As worked, €{Figures.Plain(Figures.InvoiceTotal)}");
        await Assertions.Expect(hands.Field("Quantity, line 1")).ToHaveValueAsync("2.5");
        await hands.PressAsync("Issue invoice");
        var heading = await hands.Page.Locator("section[id] h2").First.InnerTextAsync();
        return heading.Replace("Invoice ", "", StringComparison.Ordinal).Trim();
    }

    public static async Task PayAsync(Hands hands)
    {
        await hands.TypeAsync("Amount", Figures.Plain(Figures.FirstPayment));
        await hands.ChooseAsync("How", "cash");
        await hands.PressAsync("Record payment");
        var rest = Figures.Plain(Figures.InvoiceTotal - Figures.FirstPayment);
        await Assertions.Expect(hands.Field("Amount")).ToHaveValueAsync(rest.TrimEnd('0').TrimEnd('.'));
        await hands.ChooseAsync("How", "card");
        await hands.PressAsync("Record payment");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("Settled.");
    }

    private static async Task LineAsync(Hands hands, int line, string kind, string what, decimal low, decimal high, string unit, decimal price)
    {
        await hands.ChooseAsync($"Kind, line {line}", kind);
        await hands.TypeAsync($"What, line {line}", what);
        await hands.TypeAsync($"At least, line {line}", $"{low}");
        await hands.TypeAsync($"At most, line {line}", $"{high}");
        await hands.TypeAsync($"Unit, line {line}", unit);
        await hands.TypeAsync($"Price, line {line}", Figures.Plain(price));
    }
}
