using Microsoft.Playwright;

namespace RepairShop.Browser.Tests;

/// <summary>Taps with a finger, as on a phone beside the camera; the page must come from a context that has touch.</summary>
public sealed class TouchHands(IPage page) : Hands(page)
{
    protected override Task ActivateAsync(ILocator target) => target.TapAsync();

    public override async Task TypeAsync(ILocator field, string text)
    {
        await field.TapAsync();
        await field.FillAsync(text);
    }

    public override async Task ChooseAsync(ILocator list, string option) => await list.SelectOptionAsync(new SelectOptionValue { Label = option });

    public override async Task TickAsync(ILocator box)
    {
        if (!await box.IsCheckedAsync())
            await box.TapAsync();
    }
}
