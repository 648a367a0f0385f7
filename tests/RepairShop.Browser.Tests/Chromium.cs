using Microsoft.Playwright;
using Xunit;

namespace RepairShop.Browser.Tests;

/// <summary>The system's Chromium, started once for all stories.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    private IPlaywright? playwright;
    private IBrowser? browser;

    public IBrowser Browser => browser ?? throw new InvalidOperationException("Chromium has not been started.");

    public async ValueTask InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        browser = await LaunchAsync();
    }

    /// <summary>A Chromium of one's own whose sound input plays this file once, from the moment the page opens it.</summary>
    /// <param name="wav">44.1 kHz stereo, 16 bits: what the fake device runs at, so that no sample is touched on the way.</param>
    public Task<IBrowser> ListeningToAsync(string wav) => LaunchAsync(
        "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", $"--use-file-for-fake-audio-capture={wav}%noloop",
        "--autoplay-policy=no-user-gesture-required");

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.DisposeAsync();
        playwright?.Dispose();
    }

    private Task<IBrowser> LaunchAsync(params string[] more)
    {
        var program = Places.FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException("Chromium is not here: run ./tests/run, which installs it, or install the package chromium.");
        return playwright!.Chromium.LaunchAsync(new()
        {
            ExecutablePath = program,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync", .. more,
            ],
        });
    }
}
