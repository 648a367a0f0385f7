using System.Diagnostics;
using Microsoft.Playwright;
using RepairShop.Documents.Paperwork;
using RepairShop.Documents.Tests;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Benchmarks;

/// <summary>An invoice of eight lines as PDF, against Chromium printing the same content from HTML: a warm browser, one page kept
/// open, the content set and printed. Aim: 20 times faster.</summary>
internal static class InvoicePdf
{
    private const int RoundCount = 15;
    private const int PapersARound = 20;
    private const int PrintsARound = 5;

    private static readonly string[] Browsers = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    public static async Task<IReadOnlyList<Comparison>> RunAsync(CancellationToken cancel)
    {
        var facts = Sample.InvoiceOf(8);
        var html = InvoiceHtml.Write(facts);
        using var playwright = await Playwright.CreateAsync();
        await using var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Browsers.FirstOrDefault(File.Exists) ?? throw new InvalidOperationException("Chromium is not here: install the package chromium."),
            Args = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
        var page = await browser.NewPageAsync();
        var printed = Array.Empty<byte>();
        var rendered = PaperRenderer.Render(PaperKind.Invoice, facts);
        Task<double> OursAsync() => Task.FromResult(Milliseconds(() => rendered = PaperRenderer.Render(PaperKind.Invoice, facts)));
        async Task<double> TheirsAsync()
        {
            var clock = Stopwatch.StartNew();
            for (var i = 0; i < PrintsARound; i++)
            {
                await page.SetContentAsync(html);
                printed = await page.PdfAsync(new() { Format = "A4" });
            }

            return clock.Elapsed.TotalMilliseconds / PrintsARound;
        }

        for (var warm = 0; warm < 3; warm++)
        {
            await OursAsync();
            await TheirsAsync();
            cancel.ThrowIfCancellationRequested();
        }

        var rounds = await Rounds.RunAsync(RoundCount, OursAsync, TheirsAsync);
        Console.WriteLine($"{rendered.Pages} page(s), {rendered.Pdf.Length:N0} bytes of ours, {printed.Length:N0} of Chromium's");
        return [Comparison.Of("invoice PDF, Chromium's print to PDF", "ms", rounds, (ours, other) => other / ours, "at least 20", ratio => ratio >= 20)];
    }

    private static double Milliseconds(Action render)
    {
        var clock = Stopwatch.StartNew();
        for (var i = 0; i < PapersARound; i++)
            render();
        return clock.Elapsed.TotalMilliseconds / PapersARound;
    }
}
