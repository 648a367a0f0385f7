using System.Diagnostics;
using System.Globalization;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;
using RepairShop.Testing.Recordings;
using RepairShop.Testing.Signals;

namespace RepairShop.Benchmarks;

/// <summary>
/// A minute of one channel at 48 kHz with twenty exposures, analysed on one core: how many times faster than it was recorded, clean and with hum,
/// against only reading the same WAV file, against SciPy doing the same steps, and how much memory it asks for. Aims: at least 500 times real time,
/// at most three times the reading, faster than SciPy, at most four times the samples.
/// </summary>
internal static class SignalSpeed
{
    private const double RateHz = 48_000;
    private const double Seconds = 60;
    private const int RoundCount = 9;

    public static async Task<IReadOnlyList<Comparison>> RunAsync(CancellationToken cancel)
    {
        var samples = Samples(hum: null);
        var recording = Recording.Mono(RateHz, samples);
        var humming = Recording.Mono(RateHz, Samples(hum: (50.02, 0.1)));
        var wav = WavBytes.Of((int)RateHz, WavSamples.Pcm16, extensible: false, samples);
        var file = Path.Combine(Path.GetTempPath(), $"minute-{Guid.NewGuid():N}.f32");
        await File.WriteAllBytesAsync(file, System.Runtime.InteropServices.MemoryMarshal.AsBytes(samples.AsSpan()).ToArray(), cancel);
        try
        {
            AnalysisResult result = RecordingAnalysis.Analyse(recording, Rig.OneSensor);
            for (var warm = 0; warm < 12; warm++)
            {
                RecordingAnalysis.Analyse(humming, Rig.OneSensor);
                RecordingReader.Read(new MemoryStream(wav));
                result = RecordingAnalysis.Analyse(recording, Rig.OneSensor);
            }

            Console.WriteLine($"{result.Exposures.Count} exposures, τ {result.Coupling.TimeConstantSeconds * 1000:0.0} ms");

            Task<double> OursAsync() => Task.FromResult(Milliseconds(() => result = RecordingAnalysis.Analyse(recording, Rig.OneSensor)));
            async Task<double> ScipyAsync() => await ScipyMillisecondsAsync(file, result.Coupling.TimeConstantSeconds ?? 0, cancel);
            var rounds = await Rounds.RunAsync(RoundCount, OursAsync, ScipyAsync);
            Task<double> HummingAsync() => Task.FromResult(Milliseconds(() => RecordingAnalysis.Analyse(humming, Rig.OneSensor)));
            Task<double> ReadAsync() => Task.FromResult(Milliseconds(() => RecordingReader.Read(new MemoryStream(wav))));
            var hum = await Rounds.RunAsync(RoundCount, HummingAsync, () => Task.FromResult(Seconds * 1000));
            var reading = await Rounds.RunAsync(RoundCount, OursAsync, ReadAsync);
            var realTime = rounds.Select(round => (round.Ours, Other: Seconds * 1000)).ToList();
            var memory = new List<(double Ours, double Other)> { (Allocated(recording) / 1e6, samples.Length * sizeof(float) / 1e6) };
            return
            [
                Comparison.Of("60 s of signal, real time", "ms", realTime, (ours, other) => other / ours, "at least 500", ratio => ratio >= 500),
                Comparison.Of("60 s with 10 % hum, real time", "ms", hum, (ours, other) => other / ours, "at least 500", ratio => ratio >= 500),
                Comparison.Of("60 s of signal, reading the same WAV", "ms", reading, (ours, other) => ours / other, "at most 3", ratio => ratio <= 3),
                Comparison.Of("60 s of signal, SciPy's steps", "ms", rounds, (ours, other) => other / ours, "more than 1", ratio => ratio > 1),
                Comparison.Of("all memory asked for, the samples", "MB", memory, (ours, other) => (ours + other) / other, "at most 4", ratio => ratio <= 4),
            ];
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static float[] Samples((double FrequencyHz, double Share)? hum)
    {
        double[] speeds = [1, 1 / 2.0, 1 / 4.0, 1 / 8.0, 1 / 15.0, 1 / 30.0, 1 / 60.0, 1 / 125.0, 1 / 250.0, 1 / 500.0];
        var profiles = Enumerable.Range(0, 20).Select(i =>
        {
            var (seconds, edge) = (speeds[i % speeds.Length], 0.0006);
            return ShutterProfile.Of(1.5 + 2.9 * i, edge, seconds - edge, edge, BladeLaw.Iris, BladeLaw.Straight);
        }).ToList();
        return new SignalSynth { Profiles = profiles, SampleRateHz = RateHz, DurationSeconds = Seconds, CornerHz = 2, NoiseDecibels = 40, Hum = hum }.Samples();
    }

    private static double Milliseconds(Action analyse)
    {
        var clock = Stopwatch.StartNew();
        analyse();
        return clock.Elapsed.TotalMilliseconds;
    }

    /// <summary>Everything the analysis allocates, freed or not: more than it ever holds at once.</summary>
    private static double Allocated(Recording recording)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        RecordingAnalysis.Analyse(recording, Rig.OneSensor);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    /// <summary>The script times itself: neither Python's start nor reading the file counts.</summary>
    private static async Task<double> ScipyMillisecondsAsync(string file, double tau, CancellationToken cancel)
    {
        var script = Path.Combine(AppContext.BaseDirectory, "signal_steps.py");
        var start = new ProcessStartInfo("/usr/bin/python3", [script, file, RateHz.ToString(CultureInfo.InvariantCulture), tau.ToString("R", CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
        };
        // One core each.
        foreach (var threads in new[] { "OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS" }) start.Environment[threads] = "1";
        using var python = Process.Start(start) ?? throw new InvalidOperationException("Python did not start.");
        var output = await python.StandardOutput.ReadToEndAsync(cancel);
        await python.WaitForExitAsync(cancel);
        return python.ExitCode == 0
            ? double.Parse(output, CultureInfo.InvariantCulture)
            : throw new InvalidOperationException("SciPy is needed for this benchmark: install python3-scipy.");
    }
}
