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
        var program = Places.FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException("Chromium is not here: run ./tests/run, which installs it, or install the package chromium.");
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = program,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.DisposeAsync();
        playwright?.Dispose();
    }
}
