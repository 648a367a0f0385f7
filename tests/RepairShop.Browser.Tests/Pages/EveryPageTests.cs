using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace RepairShop.Browser.Tests.Pages;

/// <summary>Every kind of page of a full workshop is looked at by axe and by the rules of our own that a machine can check.</summary>
public sealed class EveryPageTests(DemoShop demo) : IClassFixture<DemoShop>
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
    };

    [Theory]
    [InlineData(390, ColorScheme.Light)]
    [InlineData(1440, ColorScheme.Dark)]
    public async Task Every_page_is_accessible_named_and_quiet(int width, ColorScheme scheme)
    {
        var faults = new List<string>();
        await using var context = await demo.SignInAsync(new() { ViewportSize = new() { Width = width, Height = 900 }, ColorScheme = scheme });
        var page = await context.NewPageAsync();
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.Contains("404", StringComparison.Ordinal))
                faults.Add($"{page.Url}: console: {message.Text}");
        };
        page.PageError += (_, error) => faults.Add($"{page.Url}: script: {error}");
        foreach (var path in await PagesAsync(page))
        {
            await page.GotoAsync(demo.Shop.Address + path);
            faults.AddRange(await NamesAsync(page, path));
            var result = await page.RunAxe(Rules);
            faults.AddRange(result.Violations.SelectMany(rule => rule.Nodes.Select(node => $"{path}: {rule.Id}: {node.Target} {node.Html}")));
        }
        Assert.True(faults.Count == 0, string.Join('\n', faults.Distinct()));
    }

    [Fact]
    public async Task No_page_is_wider_than_a_small_phone()
    {
        var faults = new List<string>();
        await using var context = await demo.SignInAsync(new() { ViewportSize = new() { Width = 320, Height = 700 } });
        var page = await context.NewPageAsync();
        foreach (var path in await PagesAsync(page))
        {
            await page.GotoAsync(demo.Shop.Address + path);
            var (wide, culprit) = (await page.EvaluateAsync<int>("() => document.scrollingElement.scrollWidth - innerWidth"), "");
            if (wide > 0)
                culprit = await page.EvaluateAsync<string>(
                    "() => [...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).slice(0, 4).map(e => e.outerHTML.slice(0, 90)).join(' | ')");
            if (wide > 0)
                faults.Add($"{path}: {wide} px too wide: {culprit}");
        }
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }

    [Fact]
    public async Task Pages_for_strangers_are_accessible_too()
    {
        var faults = new List<string>();
        await using var context = await demo.StrangerAsync();
        var page = await context.NewPageAsync();
        foreach (var path in new[] { "/account/sign-in", "/answer/no-such-letter", "/no/such/page" })
        {
            await page.GotoAsync(demo.Shop.Address + path);
            faults.AddRange(await NamesAsync(page, path));
            var result = await page.RunAxe(Rules);
            faults.AddRange(result.Violations.SelectMany(rule => rule.Nodes.Select(node => $"{path}: {rule.Id}: {node.Html}")));
        }
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }

    private async Task<IReadOnlyList<string>> PagesAsync(IPage page)
    {
        var pages = await Crawler.PagesAsync(page, demo.Shop.Address, ["/bench", "/repairs", .. await demo.OneRepairAStageAsync(page), "/no/such/page"]);
        // Fewer would mean that the crawl stops at the door and the test looks at nothing.
        Assert.True(pages.Count >= 40, $"Only {pages.Count} pages found: {string.Join(' ', pages)}");
        return pages;
    }

    private static async Task<IEnumerable<string>> NamesAsync(IPage page, string path)
    {
        var faults = new List<string>();
        if (await page.Locator("h1").CountAsync() is var headings && headings != 1)
            faults.Add($"{path}: {headings} first headings");
        if ((await page.TitleAsync()).Split(" · ") is not [{ Length: > 0 }, .. { Length: > 0 }])
            faults.Add($"{path}: the title says no more than “{await page.TitleAsync()}”");
        return faults;
    }
}
