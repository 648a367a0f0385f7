using System.Globalization;
using Microsoft.Playwright;
using RepairShop.Testing.Recordings;
using Xunit;

namespace RepairShop.Browser.Tests.Scripts;

/// <summary>The shutter recorded in the page: a sound input plays a file whose truth is known, and the page must say the same.</summary>
public sealed class CaptureStories(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>, IDisposable
{
    private const int Rate = 44_100;

    /// <summary>Time for the page to arm and to hear the quiet; between releases time for the answer.</summary>
    private const double Lead = 2.5, Apart = 1.6;

    private static readonly LocatorAssertionsToContainTextOptions Patiently = new() { Timeout = 20_000 };

    /// <summary>Notes how long after the last edge of an exposure reached the page its figures stood there. Told, never asserted.</summary>
    private const string Watch = """
        window.waits = [];
        let made, ended, cutOut;
        Object.defineProperty(window, "CaptureWatch", {
          get: () => made,
          set: watch => {
            made = class extends watch {
              take(...block) {
                const before = this.exposure?.last;
                const cut = super.take(...block);
                if (this.exposure && this.exposure.last !== before) ended = performance.now();
                if (cut) cutOut = performance.now();
                return cut;
              }
            };
          },
        });
        document.addEventListener("charts", () => waits.push(`${Math.round(performance.now() - ended)} (${Math.round(cutOut - ended)})`));
        """;

    private readonly string folder = Directory.CreateTempSubdirectory("sound-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static IReadOnlyList<LightPulse> Pulses(params double[] widths) =>
        [.. widths.Select((width, i) => new LightPulse(Lead + i * Apart, 0.001, width - 0.001, 0.001))];

    private async Task<(IBrowser Browser, IPage Page)> OpenAsync(float[] sound, string? script = null)
    {
        var file = Path.Combine(folder, $"{Guid.NewGuid():N}.wav");
        await File.WriteAllBytesAsync(file, WavBytes.Of(Rate, WavSamples.Pcm16, false, sound, sound), TestContext.Current.CancellationToken);
        var browser = await chromium.ListeningToAsync(file);
        var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 }, StorageState = open.SignedIn });
        if (script is not null)
            await context.AddInitScriptAsync(script);
        var page = await context.NewPageAsync();
        await page.GotoAsync($"{open.Shop.Address}/repairs/{open.Repair}/shutter/as-received/capture");
        await page.GetByLabel("1/100", new() { Exact = true }).CheckAsync();
        return (browser, page);
    }

    private static Task ArmAsync(IPage page) => page.GetByRole(AriaRole.Button, new() { Name = "Arm", Exact = true }).ClickAsync();

    private static ILocator State(IPage page) => page.Locator("[data-state]");

    private static async Task<double[]> FiguresAsync(IPage page, int count)
    {
        await Assertions.Expect(page.Locator("#releases [data-reading]")).ToHaveCountAsync(count, new() { Timeout = 20_000 });
        var said = await page.Locator("#releases [data-reading]").EvaluateAllAsync<string[]>("rows => rows.map(row => row.dataset.reading)");
        return [.. said.Select(text => double.Parse(text, CultureInfo.InvariantCulture)).Reverse()];
    }

    [Fact]
    public async Task Releases_heard_by_the_page_have_the_times_they_were_made_with_and_stay_after_a_reload()
    {
        double[] widths = [0.0100, 0.0104, 0.0097];
        for (var once = 1; ; once++)
        {
            var (browser, page) = await OpenAsync(LightPulses.Signal(Rate, Pulses(widths), tail: 2), Watch);
            await using var _ = browser;
            await ArmAsync(page);
            // A busy machine may put in or lose a block of sound. The page has to say so; only then is the story told again, twice at most.
            if (await LosesSoundAsync(page, widths.Length) && once < 3)
                continue;
            var figures = await FiguresAsync(page, widths.Length);
            for (var i = 0; i < widths.Length; i++)
            {
                // DC and 48 dB: a quarter of a sample or 0.1 %, three times over for a single error.
                Assert.Equal(widths[i], figures[i], 3 * Math.Max(0.25 / Rate, 0.001 * widths[i]));
            }

            var waits = await page.EvaluateAsync<string[]>("waits");
            TestContext.Current.TestOutputHelper?.WriteLine($"From an exposure's end to its figures in the page, ms (of these until it was cut out): {string.Join(", ", waits)}");
            await page.ReloadAsync();
            Assert.Equal(figures, await FiguresAsync(page, widths.Length));
            return;
        }
    }

    /// <summary>Waits for every release to be answered; true when one of them names a block of sound lost, put in or repeated.</summary>
    private static async Task<bool> LosesSoundAsync(IPage page, int releases)
    {
        await page.WaitForFunctionAsync(
            "count => document.querySelectorAll('#releases [data-reading], [data-refused] li').length >= count", releases, new() { Timeout = 30_000 });
        return await page.Locator("#releases [data-warning-name=lostBlock], #releases [data-warning-name=droppedBlock], [data-refused] li:has-text(\"block\")").CountAsync() > 0;
    }

    [Fact]
    public async Task A_block_of_silence_put_in_by_the_input_is_named()
    {
        var sound = LightPulses.Signal(Rate, Pulses(0.0100), tail: 2).ToList();
        // Ten milliseconds of nothing in the middle of the exposure, as a busy machine puts in.
        sound.InsertRange((int)((Lead + 0.005) * Rate), new float[Rate / 100]);
        var (browser, page) = await OpenAsync([.. sound]);
        await using var _ = browser;
        await ArmAsync(page);
        await Assertions.Expect(page.Locator(".warnings li, .releases .warning").First).ToContainTextAsync("block", Patiently);
    }

    [Fact]
    public async Task A_silent_input_is_refused()
    {
        var (browser, page) = await OpenAsync(new float[Rate * 4]);
        await using var _ = browser;
        await ArmAsync(page);
        await Assertions.Expect(State(page)).ToContainTextAsync("No signal comes from this input", Patiently);
        await Assertions.Expect(page.Locator("#releases [data-reading]")).ToHaveCountAsync(0);
    }

    [Theory]
    [InlineData(0.08, 50, "Hum at 50 Hz")]
    [InlineData(0.08, 60, "Hum at 60 Hz")]
    [InlineData(1, 997, "overdriven")]
    public async Task Hum_and_clipping_are_told_before_the_first_release(double height, double hertz, string says)
    {
        var chance = new Random(3);
        var sound = Enumerable.Range(0, Rate * 8)
            .Select(i => (float)Math.Clamp(1.02 * height * Math.Sin(2 * Math.PI * hertz * i / Rate) + 0.001 * chance.NextDouble(), -1, 1)).ToArray();
        var (browser, page) = await OpenAsync(sound);
        await using var _ = browser;
        await ArmAsync(page);
        await Assertions.Expect(page.Locator("[data-warning]")).ToContainTextAsync(says, Patiently);
    }

    [Theory]
    [InlineData("MediaStreamTrack.prototype.getSettings = () => ({ echoCancellation: true, noiseSuppression: false, autoGainControl: false })", "sound processing can’t be turned off")]
    [InlineData("MediaDevices.prototype.getUserMedia = () => Promise.reject(new DOMException('', 'NotFoundError'))", "No sound input was found")]
    [InlineData("MediaDevices.prototype.getUserMedia = () => Promise.reject(new DOMException('', 'NotAllowedError'))", "not allowed to use the sound input")]
    public async Task An_input_that_can_not_be_trusted_is_refused_with_a_sentence(string script, string says)
    {
        var (browser, page) = await OpenAsync(new float[Rate], script);
        await using var _ = browser;
        await ArmAsync(page);
        await Assertions.Expect(State(page)).ToContainTextAsync(says, Patiently);
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Arm", Exact = true })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_release_made_without_a_connection_waits_in_the_browser_and_is_sent_after_a_reload()
    {
        var (browser, page) = await OpenAsync(LightPulses.Signal(Rate, Pulses(0.0100), tail: 2));
        await using var _ = browser;
        await ArmAsync(page);
        await page.Context.SetOfflineAsync(true);
        await Assertions.Expect(page.Locator("[data-refused]")).ToContainTextAsync("kept in this browser", Patiently);
        await page.Context.SetOfflineAsync(false);
        await page.ReloadAsync();
        Assert.Single(await FiguresAsync(page, 1));
    }
}
