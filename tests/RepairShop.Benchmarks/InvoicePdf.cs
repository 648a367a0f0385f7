using System.Diagnostics;
using Microsoft.Playwright;
using RepairShop.Documents.Paperwork;
using RepairShop.Documents.Tests;
using RepairShop.Domain.Paperwork;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>An invoice of eight lines as PDF, against Chromium printing the same content from HTML, twice: a warm browser with one page
/// kept open, the content set and printed; and the command <c>chromium --print-to-pdf</c>, as a program calls it that keeps no browser
/// running. Aim: 20 times faster.</summary>
internal static class InvoicePdf
{
    private const int RoundCount = 15;
    private const int PapersARound = 20;
    private const int PrintsARound = 5;

    private static readonly string[] Quiet = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

    private static readonly string[] Browsers = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    public static async Task<IReadOnlyList<Comparison>> RunAsync(CancellationToken cancel)
    {
        var facts = Sample.InvoiceOf(8);
        var html = InvoiceHtml.Write(facts);
        using var playwright = await Playwright.CreateAsync();
        await using var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Browser(),
            Args = Quiet,
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
        var commands = await CommandAsync(html, OursAsync, cancel);
        return
        [
            Comparison.Of("invoice PDF, a warm Chromium's print to PDF", "ms", rounds, (ours, other) => other / ours, "at least 20", ratio => ratio >= 20),
            Comparison.Of("invoice PDF, the command chromium --print-to-pdf", "ms", commands, (ours, other) => other / ours, "at least 20", ratio => ratio >= 20),
        ];
    }

    private static async Task<IReadOnlyList<(double, double)>> CommandAsync(string html, Func<Task<double>> oursAsync, CancellationToken cancel)
    {
        var folder = TestFolders.Create("print");
        try
        {
            var (page, pdf) = (Path.Combine(folder, "invoice.html"), Path.Combine(folder, "invoice.pdf"));
            await File.WriteAllTextAsync(page, html, cancel);
            async Task<double> TheirsAsync()
            {
                File.Delete(pdf);
                var start = new ProcessStartInfo(Browser()) { RedirectStandardError = true, RedirectStandardOutput = true };
                foreach (var argument in (string[])["--headless", .. Quiet, $"--user-data-dir={folder}/profile", $"--print-to-pdf={pdf}", new Uri(page).AbsoluteUri])
                    start.ArgumentList.Add(argument);
                var clock = Stopwatch.StartNew();
                using var browser = Process.Start(start)!;
                var said = browser.StandardError.ReadToEndAsync(cancel);
                await browser.StandardOutput.ReadToEndAsync(cancel);
                await browser.WaitForExitAsync(cancel);
                return File.Exists(pdf) ? clock.Elapsed.TotalMilliseconds : throw new InvalidOperationException($"Chromium printed nothing: {await said}");
            }

            await TheirsAsync();
            return await Rounds.RunAsync(RoundCount, oursAsync, TheirsAsync);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Browser() =>
        Browsers.FirstOrDefault(File.Exists) ?? throw new InvalidOperationException("Chromium is not here: install the package chromium.");

    private static double Milliseconds(Action render)
    {
        var clock = Stopwatch.StartNew();
        for (var i = 0; i < PapersARound; i++)
            render();
        return clock.Elapsed.TotalMilliseconds / PapersARound;
    }
}
