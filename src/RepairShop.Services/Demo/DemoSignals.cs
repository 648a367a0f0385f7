using NAudio.Wave;
using RepairShop.Domain.Cameras;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Services.Demo;

/// <summary>
/// A light sensor's signal in front of a tired or a serviced shutter, as a sound input would record it: opening and closing, noise, the input's
/// own droop. The same every time for the same seed.
/// </summary>
internal sealed class DemoSignals(Random chance)
{
    private const int Rate = 48_000;
    private const double Level = 0.55, Noise = 0.003, Between = 0.55;

    /// <summary>A sound input with its corner at 0.8 Hz.</summary>
    private const double TimeConstantSeconds = 0.2;

    private const double FrameMm = 36, SensorMm = 1.2, EdgeMm = 16.2;

    /// <summary>What a shutter does in one session.</summary>
    /// <param name="OpeningMs">All the way open, or a curtain's run over the frame where the shutter has curtains.</param>
    /// <param name="ClosingMs">All the way shut, or the second curtain's run.</param>
    private sealed record Blades(double OpeningMs, double ClosingMs);

    /// <param name="marks">The dial, slowest first.</param>
    /// <param name="errors">What the shutter does, in stops.</param>
    /// <param name="kind">Between-lens gives one channel, focal-plane three.</param>
    /// <param name="tired">As received, or after service.</param>
    /// <param name="releases">How often at each speed.</param>
    /// <returns>A WAV file.</returns>
    public byte[] Record(IReadOnlyList<string> marks, SeedErrors errors, ShutterKind kind, bool tired, int releases)
    {
        var times = marks.SelectMany((mark, index) => Enumerable.Repeat(Seconds(mark, (double)index / Math.Max(1, marks.Count - 1), errors), releases))
            .Select((time, index) => time * (1 + 0.008 * Bell() * (1 + (double)index / (marks.Count * releases)))).ToList();
        var blades = kind == ShutterKind.FocalPlane ? tired ? new Blades(15.4, 13.1) : new Blades(12.3, 12.1) : tired ? new Blades(2.3, 6.2) : new Blades(1.7, 1.5);
        var starts = Starts(times);
        var length = (int)((starts[^1] + times[^1] + Between) * Rate);
        double[] positions = kind == ShutterKind.FocalPlane ? [0, -EdgeMm, EdgeMm] : [0];
        return Wav([.. positions.Select(position => Coupled(Light(starts, times, blades, kind, position, length)))]);
    }

    private static double Seconds(string mark, double place, SeedErrors errors)
    {
        var stops = place < 0.5
            ? errors.Slow + (errors.Middle - errors.Slow) * place * 2
            : errors.Middle + (errors.Fast - errors.Middle) * (place - 0.5) * 2;
        return MarkedSpeed.Parse(mark).Mark!.LiteralSeconds!.Value * Math.Pow(2, stops);
    }

    private static List<double> Starts(List<double> times)
    {
        var starts = new List<double>();
        var at = Between;
        foreach (var time in times)
        {
            starts.Add(at);
            at += time + Between;
        }

        return starts;
    }

    private static float[] Light(List<double> starts, List<double> times, Blades blades, ShutterKind kind, double position, int length)
    {
        var light = new float[length];
        for (var i = 0; i < times.Count; i++)
        {
            var edge = kind == ShutterKind.FocalPlane ? Curtains(starts[i], times[i], blades, position) : Leaves(starts[i], times[i], blades);
            var (from, to) = ((int)(edge.Opens * Rate), Math.Min(length - 1, (int)((edge.Shut + 0.001) * Rate)));
            for (var n = from; n <= to; n++)
                light[n] = (float)(edge.Height * Math.Min(Rise(((double)n / Rate - edge.Opens) / edge.Opening), Rise((edge.Shut - (double)n / Rate) / edge.Closing)));
        }

        return light;
    }

    private sealed record Edges(double Opens, double Opening, double Shut, double Closing, double Height);

    /// <summary>Straight opening and closing: the effective time is the dwell and half of both. Too short a time never opens fully.</summary>
    private static Edges Leaves(double start, double seconds, Blades blades)
    {
        var (opening, closing) = (blades.OpeningMs / 1000, blades.ClosingMs / 1000);
        var height = Math.Min(1, Math.Sqrt(2 * seconds / (opening + closing)));
        var dwell = Math.Max(0, seconds - (opening + closing) / 2);
        return new Edges(start, height * opening, start + dwell + height * (opening + closing), height * closing, height);
    }

    private static Edges Curtains(double start, double seconds, Blades blades, double position)
    {
        var share = (position + FrameMm / 2) / FrameMm;
        var (first, second) = (blades.OpeningMs / 1000, blades.ClosingMs / 1000);
        var (opening, closing) = (first * SensorMm / FrameMm, second * SensorMm / FrameMm);
        var opens = start + share * first;
        // In the middle of the frame the exposure is what the dial gives; towards the edges the two runs drift apart.
        var shuts = start + seconds + first / 2 + (share - 0.5) * second;
        return new Edges(opens - opening / 2, opening, shuts + closing / 2, closing, 1);
    }

    private static double Rise(double share) => Math.Clamp(share, 0, 1);

    private float[] Coupled(float[] light)
    {
        var keep = Math.Exp(-1 / (Rate * TimeConstantSeconds));
        var signal = new float[light.Length];
        var (before, droop) = (0.0, 0.0);
        for (var i = 0; i < light.Length; i++)
        {
            droop = keep * (droop + light[i] - before);
            before = light[i];
            signal[i] = (float)(Level * droop + Noise * Bell());
        }

        return signal;
    }

    /// <summary>A sum of uniform chances: near enough to a bell curve of deviation one, never far out.</summary>
    private double Bell()
    {
        var sum = -2.0;
        for (var i = 0; i < 4; i++)
            sum += chance.NextDouble();
        return sum * 1.7320508;
    }

    private static byte[] Wav(float[][] channels)
    {
        using var bytes = new MemoryStream();
        using (var wav = new WaveFileWriter(bytes, new WaveFormat(Rate, 16, channels.Length)))
        {
            for (var i = 0; i < channels[0].Length; i++)
            {
                foreach (var channel in channels)
                    wav.WriteSample(channel[i]);
            }
        }

        return bytes.ToArray();
    }
}
