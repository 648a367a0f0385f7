using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace RepairShop.Browser.Tests;

/// <summary>A person at a page. The same story is told once with a mouse and once with the keyboard alone.</summary>
public abstract class Hands(IPage page)
{
    public IPage Page { get; } = page;

    /// <summary>Presses a button, found by its words.</summary>
    public Task PressAsync(string words) => PressAsync(Page.GetByRole(AriaRole.Button, new() { Name = words, Exact = true }).First);

    /// <summary>Follows a link, found by its words.</summary>
    public Task FollowAsync(string words) => PressAsync(Page.GetByRole(AriaRole.Link, new() { Name = words, Exact = true }).First);

    /// <summary>Presses what leads to another page, waits until that page stands there, and fails when it refuses what was sent.</summary>
    public async Task PressAsync(ILocator target)
    {
        var arrived = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        void Arrived(object? sender, IFrame frame)
        {
            if (frame == Page.MainFrame)
                arrived.TrySetResult();
        }

        Page.FrameNavigated += Arrived;
        try
        {
            await ActivateAsync(target);
            if (await Task.WhenAny(arrived.Task, Task.Delay(TimeSpan.FromSeconds(60))) != arrived.Task)
                throw new InvalidOperationException($"Pressing {target} on {Page.Url} leads nowhere.");
        }
        finally
        {
            Page.FrameNavigated -= Arrived;
        }
        await Page.WaitForLoadStateAsync();
        await ExpectNoErrorPageAsync();
        if (await Page.Locator(".form-errors").CountAsync() > 0)
            throw new InvalidOperationException($"Refused at {Page.Url}: {await Page.Locator(".form-errors").First.InnerTextAsync()}");
    }

    /// <summary>A field by its label; that it may be left empty is said in the label too.</summary>
    public ILocator Field(string label) =>
        Page.GetByLabel(new Regex($@"^\s*{Regex.Escape(label)}\s*(\(optional\))?\s*$")).First;

    /// <summary>Types into the field with this label, replacing what stands there.</summary>
    public Task TypeAsync(string label, string text) => TypeAsync(Field(label), text);

    public abstract Task TypeAsync(ILocator field, string text);

    /// <summary>Chooses in the list with this label by the option's words.</summary>
    public abstract Task ChooseAsync(ILocator list, string option);

    public Task ChooseAsync(string label, string option) => ChooseAsync(Field(label), option);

    /// <summary>Ticks a box or picks a radio button.</summary>
    public abstract Task TickAsync(ILocator box);

    public Task TickAsync(string label) => TickAsync(Field(label));

    /// <summary>Ticks or picks inside a group named by its legend.</summary>
    public Task TickAsync(string group, string label) =>
        TickAsync(Page.GetByRole(AriaRole.Group, new() { Name = group, Exact = true }).GetByLabel(label, new() { Exact = true }).First);

    /// <summary>Follows the link on top of a page that leads back to the repair's sheet.</summary>
    public Task BackAsync() => PressAsync(Page.Locator("a.back"));

    protected abstract Task ActivateAsync(ILocator target);

    public async Task GoAsync(string address)
    {
        await Page.GotoAsync(address);
        await ExpectNoErrorPageAsync();
    }

    /// <summary>The page as it stands, with what is opened and typed on it, breaks no rule axe knows.</summary>
    public async Task ExpectNothingForAxeAsync()
    {
        var result = await Page.RunAxe();
        Assert.Empty(result.Violations.SelectMany(rule => rule.Nodes.Select(node => $"{rule.Id}: {node.Html}")));
    }

    /// <summary>Fails with the page's words when the program answered with an error page.</summary>
    public async Task ExpectNoErrorPageAsync()
    {
        if (await Page.TitleAsync() is { } title && title.Contains("went wrong", StringComparison.OrdinalIgnoreCase))
            throw new InvalidOperationException($"Error page at {Page.Url}: {await Page.InnerTextAsync("main")}");
    }
}

/// <summary>Points and clicks.</summary>
public sealed class MouseHands(IPage page) : Hands(page)
{
    protected override Task ActivateAsync(ILocator target) => target.ClickAsync();

    public override Task TypeAsync(ILocator field, string text) => field.FillAsync(text);

    public override async Task ChooseAsync(ILocator list, string option) => await list.SelectOptionAsync(new SelectOptionValue { Label = option });

    public override Task TickAsync(ILocator box) => box.CheckAsync();
}

/// <summary>Never touches the mouse: walks with Tab, types, presses Enter and Space as a person does.</summary>
public sealed class KeyboardHands(IPage page) : Hands(page)
{
    private const int Patience = 400;

    protected override async Task ActivateAsync(ILocator target)
    {
        await WalkToAsync(target);
        await Page.Keyboard.PressAsync("Enter");
    }

    public override async Task TypeAsync(ILocator field, string text)
    {
        await WalkToAsync(field);
        var kind = await field.GetAttributeAsync("type");
        if (kind == "date")
        {
            await TypeDateAsync(text);
            return;
        }
        await Page.Keyboard.PressAsync("Control+A");
        if (text.Length == 0)
            await Page.Keyboard.PressAsync("Delete");
        else
            await Page.Keyboard.InsertTextAsync(text);
    }

    public override async Task ChooseAsync(ILocator list, string option)
    {
        await WalkToAsync(list);
        if (await ChosenAsync(list) == option)
            return;
        // Typing looks onward from where the list stands, and a space would open it: so from the top, by the first word, then by arrow.
        await Page.Keyboard.PressAsync("Home");
        await Page.Keyboard.TypeAsync(option.Split(' ')[0], new() { Delay = 5 });
        for (var steps = 0; steps < Patience && await ChosenAsync(list) != option; steps++)
            await Page.Keyboard.PressAsync("ArrowDown");
        if (await ChosenAsync(list) is var chosen && chosen != option)
            throw new InvalidOperationException($"The keyboard does not reach “{option}” in the list; it stands on “{chosen}”.");
    }

    private static async Task<string> ChosenAsync(ILocator list) =>
        (await list.EvaluateAsync<string>("list => list.selectedOptions[0]?.label ?? ''")).Trim();

    public override async Task TickAsync(ILocator box)
    {
        if (await box.GetAttributeAsync("type") == "radio")
        {
            await ArrowToAsync(box);
            return;
        }
        await WalkToAsync(box);
        if (!await box.IsCheckedAsync())
            await Page.Keyboard.PressAsync("Space");
    }

    /// <summary>Tab reaches a group of radio buttons once; the arrows move inside it.</summary>
    private async Task ArrowToAsync(ILocator radio)
    {
        var name = await radio.GetAttributeAsync("name");
        for (var steps = 0; steps < Patience; steps++)
        {
            if (await Page.EvaluateAsync<string?>("() => document.activeElement?.getAttribute('name')") == name)
                break;
            await Page.Keyboard.PressAsync("Tab");
        }
        await Page.Keyboard.PressAsync("Space");
        for (var steps = 0; steps < 12 && !await radio.IsCheckedAsync(); steps++)
            await Page.Keyboard.PressAsync("ArrowDown");
        if (!await radio.IsCheckedAsync())
            throw new InvalidOperationException($"The arrows do not reach “{name}”.");
    }

    private async Task TypeDateAsync(string iso)
    {
        // The browser's date field takes its parts in the order of the browser's language: here month, day, year.
        var parts = iso.Split('-');
        await Page.Keyboard.TypeAsync(parts[1] + parts[2] + parts[0]);
    }

    private async Task WalkToAsync(ILocator target)
    {
        var wanted = await target.ElementHandleAsync();
        for (var steps = 0; steps < Patience; steps++)
        {
            if (await Page.EvaluateAsync<bool>("wanted => document.activeElement === wanted", wanted))
                return;
            await Page.Keyboard.PressAsync("Tab");
        }
        throw new InvalidOperationException($"The keyboard does not reach {target} on {Page.Url}.");
    }
}
