using System.Diagnostics;
using System.Text.Json;
using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// SciPy on the same signals: its bilinear high-pass turned upside down, its smoothing spline for crossings, its Simpson rule for the light.
/// A machine without it fails here; tests/run installs it.
/// </summary>
public class ScipyTests
{
    private const double RateHz = 48_000;
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    private sealed record Given(
        double SampleRateHz, double? TauSeconds, double Offset, float[] Samples, int ClosedTo, int OpenFrom, int OpenTo, int ClosedFrom);

    private sealed record Theirs(double[] Straight, double Opening, double Closing, double Integral);

    [Fact]
    public async Task Scipy_finds_the_same_edges_and_the_same_light()
    {
        var cases = Cases().ToList();
        var theirs = await RunAsync(cases.ConvertAll(one => one.Given), TestContext.Current.CancellationToken);
        Assert.Equal(cases.Count, theirs.Count);
        for (var i = 0; i < cases.Count; i++)
        {
            var (ours, other) = (cases[i].Ours, theirs[i]);
            var width = ours.Width50Seconds;
            // Two estimators on one noisy signal: together no farther apart than one sample or half a percent.
            var apart = Math.Max(1 / RateHz, 0.005 * width);
            Assert.Equal(other.Opening, ours.Crossings.Opening50Seconds, 1 / RateHz);
            Assert.Equal(other.Closing, ours.Crossings.Closing50Seconds, 1 / RateHz);
            Assert.Equal(other.Closing - other.Opening, width, apart);
            Assert.Equal(other.Integral, ours.EffectiveSeconds!.Value, apart);
            SameStraightSignal(cases[i].Given, ours, other);
        }
    }

    /// <summary>The corrected signal itself, sample by sample: the mean difference and the scatter stay within a percent of the level.</summary>
    private static void SameStraightSignal(Given given, ExposureFigures ours, Theirs other)
    {
        var first = given.ClosedTo - (int)Math.Round(ours.Window.StartSeconds * RateHz);
        var differences = other.Straight.Select((value, n) => value / ours.Level.Value - ours.Window.Values[first + n]).ToList();
        var mean = differences.Average();
        Assert.InRange(mean, -0.01, 0.01);
        Assert.InRange(Math.Sqrt(differences.Average(d => (d - mean) * (d - mean))), 0, 0.01);
    }

    private static IEnumerable<(Given Given, ExposureFigures Ours)> Cases()
    {
        var index = 0;
        foreach (var corner in new double?[] { null, 0.5, 3, 10 })
            foreach (var seconds in new[] { 1 / 500.0, 1 / 125.0, 1 / 30.0, 1 / 8.0 })
                foreach (var law in BladeLaw.All)
                {
                    var truth = ShutterProfile.Of(0.1 + index * 3.1e-6, 0.0007, seconds - 0.0007, 0.0007, law, law);
                    var synth = new SignalSynth { Profiles = [truth], DurationSeconds = seconds + 0.4, CornerHz = corner, NoiseDecibels = 46, Level = 0.6, Seed = index++ };
                    var samples = synth.Samples();
                    var result = RecordingAnalysis.Analyse(Recording.Mono(RateHz, samples), Rig.OneSensor);
                    int At(double time) => (int)Math.Round(time * RateHz);
                    var given = new Given(
                        RateHz, result.Coupling.TimeConstantSeconds, 0, samples, At(truth.StartSeconds - 0.0003), At(truth.EndOfOpeningSeconds + 0.0001),
                        At(truth.BeginOfClosingSeconds - 0.0001), At(truth.CloseSeconds + 0.0003));
                    yield return (given, Assert.Single(result.Exposures));
                }
    }

    private static async Task<List<Theirs>> RunAsync(List<Given> given, CancellationToken cancel)
    {
        var script = Path.Combine(AppContext.BaseDirectory, "Signals", "reference.py");
        // Debian's own interpreter, beside which its SciPy is installed.
        var start = new ProcessStartInfo("/usr/bin/python3", [script]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        using var python = Process.Start(start) ?? throw new InvalidOperationException("Python did not start.");
        var (output, errors) = (python.StandardOutput.ReadToEndAsync(cancel), python.StandardError.ReadToEndAsync(cancel));
        foreach (var one in given) await python.StandardInput.WriteLineAsync(JsonSerializer.Serialize(one, Web).AsMemory(), cancel);
        python.StandardInput.Close();
        await python.WaitForExitAsync(cancel);
        Assert.True(python.ExitCode == 0, await errors);
        return [.. (await output).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonSerializer.Deserialize<Theirs>(line, Web)!)];
    }
}
