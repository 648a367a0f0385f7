using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace RepairShop.Services.Tests.Database;

/// <summary>What the operating system says about processes and folders.</summary>
internal static class Machine
{
    public static async Task<string> RunAsync(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var output = await process.StandardOutput.ReadToEndAsync();
        var error = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, $"{program} {string.Join(' ', arguments)}: {error}");
        return output;
    }

    public static int ServerId(string folder) =>
        int.Parse(File.ReadLines(Path.Combine(folder, "pg", "postmaster.pid")).First(), CultureInfo.InvariantCulture);

    public static int WatchdogId(string folder) =>
        Directory.GetDirectories("/proc").Select(Path.GetFileName)
            .Where(name => int.TryParse(name, out _))
            .Where(name => CommandLine(name!) is { } line && line.Contains("repairshop-watchdog\0") && line.Contains($"\0{folder}/pg\0"))
            .Select(name => int.Parse(name!, CultureInfo.InvariantCulture))
            .Single();

    public static bool IsAlive(int id)
    {
        try
        {
            var stat = File.ReadAllText($"/proc/{id}/stat");
            return stat[stat.LastIndexOf(')') + 2] is not ('Z' or 'X');
        }
        catch (IOException)
        {
            return false;
        }
    }

    public static async Task<TimeSpan> UntilAsync(Func<bool> condition, string what)
    {
        var watch = Stopwatch.StartNew();
        while (!condition())
        {
            Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), $"Half a minute passed and still not: {what}");
            await Task.Delay(10, TestContext.Current.CancellationToken);
        }

        return watch.Elapsed;
    }

    private static string? CommandLine(string id)
    {
        try
        {
            return File.ReadAllText($"/proc/{id}/cmdline");
        }
        catch (IOException)
        {
            return null;
        }
    }
}
