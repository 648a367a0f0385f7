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
    [InlineData("en-IE", 1440)]
    [InlineData("en-IE", 390)]
    [InlineData("de-DE", 390)]
    public async Task A_zoomed_plot_has_round_ticks_in_the_shops_locale_that_do_not_run_into_each_other(string locale, int width)
    {
        await WriteAsInAsync(locale);
        try
        {
            var page = await RecordedAsync(width);
            await TicksHoldAsync(page, CultureInfo.GetCultureInfo(locale));
            await page.Context.CloseAsync();
        }
        finally
        {
            await WriteAsInAsync("en-IE");
        }
    }

    private async Task WriteAsInAsync(string locale)
    {
        var context = await chromium.Browser.NewContextAsync(new() { StorageState = open.SignedIn });
        var page = await context.NewPageAsync();
        await page.GotoAsync(open.Shop.Address + "/shop");
        await page.GetByLabel("Written as in").SelectOptionAsync(locale);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the shop" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("Written as in")).ToHaveValueAsync(locale);
        await context.CloseAsync();
    }

    private async Task TicksHoldAsync(IPage page, CultureInfo culture)
    {
        var figure = page.Locator("figure[data-zoom]").First;
        await figure.FocusAsync();
        var whole = await TicksAsync(figure);
        Assert.Equal(await TicksWithoutScriptAsync(page), whole.Select(tick => tick.Text));
        foreach (var keys in new[] { "+", "ArrowLeft", "ArrowRight ArrowRight ArrowRight", "+", "ArrowLeft", "+ +", "ArrowRight", "+ + + + + + +" })
        {
            foreach (var key in keys.Split(' '))
                await page.Keyboard.PressAsync(key);
            AreRound(await TicksAsync(figure), await figure.Locator(".zoom-range").TextContentAsync() ?? "", culture);
        }

        await page.Keyboard.PressAsync("0");
        Assert.Equal(whole, await TicksAsync(figure));
    }

    private sealed record Tick(string Text, double X, double Left, double Right);

    /// <summary>The figures along the foot: where each stands in the drawing, and from where to where it reaches on the screen.</summary>
    private static async Task<IReadOnlyList<Tick>> TicksAsync(ILocator figure)
    {
        var told = await figure.EvaluateAsync<string[]>("""
            figure => [...figure.querySelectorAll("text.tick")].map(text => {
              const box = text.getBoundingClientRect();
              return `${text.textContent}|${text.getAttribute("x")}|${box.left}|${box.right}`;
            })
            """);
        return [.. told.Select(line => line.Split('|')).Select(part => new Tick(part[0], Number(part[1]), Number(part[2]), Number(part[3])))];
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private async Task<IReadOnlyList<string>> TicksWithoutScriptAsync(IPage page)
    {
        var context = await chromium.Browser.NewContextAsync(new() { StorageState = open.SignedIn, JavaScriptEnabled = false });
        var plain = await context.NewPageAsync();
        await plain.GotoAsync(page.Url);
        var texts = await plain.Locator("figure[data-zoom]").First.Locator("text.tick").AllTextContentsAsync();
        await context.CloseAsync();
        return texts;
    }

    /// <summary>Each figure is a multiple of 1, 2 or 5 of a power of ten, written as the locale does, at its time's place, and apart from the next.</summary>
    private static void AreRound(IReadOnlyList<Tick> ticks, string range, CultureInfo culture)
    {
        const double left = 30, right = 430; // of the drawing's 500
        var ends = range.Replace(" ms", "", StringComparison.Ordinal).Split(" to ").Select(end => double.Parse(end, culture)).ToArray();
        var times = ticks.Select(tick => double.Parse(tick.Text, culture)).ToArray();
        Assert.InRange(times.Length, 2, 9);
        var step = times[1] - times[0];
        var mantissa = step / Math.Pow(10, Math.Floor(Math.Log10(step) + 1e-9));
        Assert.Contains(new[] { 1, 2, 5 }, one => Math.Abs(one - mantissa) < 1e-6);
        Assert.InRange((ends[1] - ends[0]) / step, 2, 9);
        var decimals = step >= 1 ? 0 : (int)Math.Ceiling(-Math.Log10(step) - 1e-9);
        var rounding = 0.5 * Math.Pow(10, -Math.Max(2, decimals));
        for (var i = 0; i < ticks.Count; i++)
        {
            Assert.Equal(times[i].ToString("F" + decimals, culture), ticks[i].Text);
            Assert.Equal(0, Math.IEEERemainder(times[i], step), 6);
            Assert.Equal(left + (times[i] - ends[0]) / (ends[1] - ends[0]) * (right - left), ticks[i].X, 3 * rounding / (ends[1] - ends[0]) * (right - left) + 0.01);
            if (i == 0) continue;
            Assert.Equal(step, times[i] - times[i - 1], 6);
            Assert.True(ticks[i].Left - ticks[i - 1].Right > 2, $"{ticks[i - 1]} runs into {ticks[i]}");
        }
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
