using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using RepairShop.Measurement.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// Signals that SciPy makes: blades of other laws, its own high-pass, a converter's low-pass, and a truth read off a grid 32 times finer than
/// the recording. Neither the analysis nor this project's synthesiser has a hand in them.
/// </summary>
public class OversampledTests
{
    private const int Signals = 80;
    private const int Seed = 20;
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    private sealed record Made(double SampleRateHz, double? CornerHz, double Decibels, double Hum, double Width50, double Effective, string Samples);

    [Fact]
    public async Task Signals_made_by_scipy_keep_the_bars()
    {
        var made = await MakeAsync(TestContext.Current.CancellationToken);
        Assert.Equal(Signals, made.Count);
        var (widths, effectives) = (new List<double>(), new List<double>());
        foreach (var one in made)
        {
            var samples = MemoryMarshal.Cast<byte, float>(Convert.FromBase64String(one.Samples)).ToArray();
            var result = RecordingAnalysis.Analyse(Recording.Mono(one.SampleRateHz, samples), new Rig { ReferenceExposure = 1 });
            Assert.Equal(2, result.Exposures.Count);
            var found = result.Exposures[1];
            widths.Add((found.Width50Seconds - one.Width50) / Bar(one, one.Width50));
            effectives.Add((found.EffectiveSeconds!.Value - one.Effective) / Bar(one, one.Effective));
        }

        foreach (var errors in new[] { widths, effectives })
        {
            var told = string.Create(CultureInfo.InvariantCulture,
                $"{Rms(errors):0.00} root mean square, {errors.Average():+0.00;-0.00} mean, {errors.Max(Math.Abs):0.00} greatest, in bars");
            TestContext.Current.TestOutputHelper?.WriteLine(told);
            Assert.True(Rms(errors) <= 1 && errors.Max(Math.Abs) <= 3 && Math.Abs(errors.Average()) <= 1 / 3.0, told);
        }
    }

    /// <summary>The bar of the table's line a signal falls under.</summary>
    private static double Bar(Made one, double seconds)
    {
        var (samples, share) = one switch
        {
            { Decibels: 20 } => (1.5, 0.01),
            { Hum: > 0 } => (1, 0.01),
            { CornerHz: not null } => (0.5, 0.003),
            _ => (0.25, 0.001),
        };
        return Math.Max(samples / one.SampleRateHz, share * seconds);
    }

    private static double Rms(List<double> errors) => Math.Sqrt(errors.Average(e => e * e));

    private static async Task<List<Made>> MakeAsync(CancellationToken cancel)
    {
        var script = Path.Combine(AppContext.BaseDirectory, "Signals", "oversampled.py");
        string[] arguments = [script, Signals.ToString(CultureInfo.InvariantCulture), Seed.ToString(CultureInfo.InvariantCulture)];
        // Debian's own interpreter, beside which its SciPy is installed. A machine without it fails here; tests/run installs it.
        var start = new ProcessStartInfo("/usr/bin/python3", arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var python = Process.Start(start) ?? throw new InvalidOperationException("Python did not start.");
        var errors = python.StandardError.ReadToEndAsync(cancel);
        var made = new List<Made>();
        while (await python.StandardOutput.ReadLineAsync(cancel) is { } line) made.Add(JsonSerializer.Deserialize<Made>(line, Web)!);
        await python.WaitForExitAsync(cancel);
        Assert.True(python.ExitCode == 0, await errors);
        return made;
    }
}
