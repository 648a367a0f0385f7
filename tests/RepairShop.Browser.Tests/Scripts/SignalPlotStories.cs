using System.Globalization;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using RepairShop.Testing.Recordings;
using Xunit;

namespace RepairShop.Browser.Tests.Scripts;

/// <summary>A recording sent in as a file: its plots are zoomed by keyboard and by pointer, and its pages are open to everybody.</summary>
public sealed class SignalPlotStories(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>
{
    private const int Rate = 48_000;

    private static readonly AxeRunOptions Rules = new() { RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } };

    private string Test => $"{open.Shop.Address}/repairs/{open.Repair}/shutter/as-received";

    private async Task<IPage> RecordedAsync(int width)
    {
        var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = 900 }, StorageState = open.SignedIn });
        var page = await context.NewPageAsync();
        await page.GotoAsync(Test + "/recording");
        await page.GetByLabel("File").SetInputFilesAsync(new FilePayload
        {
            Name = "bench.wav",
            MimeType = "audio/wav",
            Buffer = WavBytes.Of(Rate, WavSamples.Pcm16, false, LightPulses.Signal(Rate, LightPulses.Of(0.1, 0.0100, 0.0101))),
        });
        await page.GetByLabel("Marked speeds").FillAsync("1/10 1/100×2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Analyse it" }).ClickAsync();
        await Assertions.Expect(page.Locator("figure[data-zoom]")).ToHaveCountAsync(3);
        return page;
    }

    /// <summary>How much time the plot shows, in milliseconds; null when it shows all.</summary>
    private static async Task<double?> ShownAsync(ILocator figure)
    {
        var words = await figure.Locator(".zoom-range").TextContentAsync() ?? "";
        if (words.Length == 0)
            return null;
        var ends = words.Replace(" ms", "", StringComparison.Ordinal).Split(" to ").Select(end => double.Parse(end, CultureInfo.InvariantCulture)).ToArray();
        return ends[1] - ends[0];
    }

    [Fact]
    public async Task A_plot_is_zoomed_by_keyboard_and_by_pointer_and_says_what_it_shows()
    {
        var page = await RecordedAsync(1440);
        var figure = page.Locator("figure[data-zoom]").First;
        await figure.FocusAsync();
        Assert.Null(await ShownAsync(figure));
        await page.Keyboard.PressAsync("+");
        var half = await ShownAsync(figure);
        await page.Keyboard.PressAsync("+");
        Assert.Equal(half!.Value / 2, (await ShownAsync(figure))!.Value, 0.02);
        var before = await figure.Locator(".zoom-range").TextContentAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        Assert.NotEqual(before, await figure.Locator(".zoom-range").TextContentAsync());
        await page.Keyboard.PressAsync("0");
        Assert.Null(await ShownAsync(figure));

        await figure.Locator("svg").DblClickAsync();
        Assert.Equal(half.Value, (await ShownAsync(figure))!.Value, 0.02);
        await figure.Locator("svg").HoverAsync();
        await page.Mouse.WheelAsync(0, -100);
        await Assertions.Expect(figure.Locator(".zoom-range")).ToContainTextAsync(" to ");
        await page.WaitForFunctionAsync("was => document.querySelector('.zoom-range').textContent !== was", before);
        Assert.True(await ShownAsync(figure) < half);
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData(320)]
    [InlineData(1440)]
    public async Task Pages_of_recordings_are_accessible_and_no_wider_than_the_screen(int width)
    {
        var page = await RecordedAsync(width);
        var faults = new List<string>();
        foreach (var address in new[] { page.Url, Test + "/recording", Test + "/capture", Test, $"{open.Shop.Address}/repairs/{open.Repair}/signals" })
        {
            await page.GotoAsync(address);
            await page.EvaluateAsync("document.querySelectorAll('details').forEach(part => part.open = true)");
            var result = await page.RunAxe(Rules);
            faults.AddRange(result.Violations.SelectMany(rule => rule.Nodes.Select(node => $"{address}: {rule.Id}: {node.Target} {node.Html}")));
            if (await page.EvaluateAsync<int>("() => document.scrollingElement.scrollWidth - innerWidth") is var wide && wide > 0)
                faults.Add($"{address}: {wide} px too wide");
        }

        await page.Context.CloseAsync();
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }
}
