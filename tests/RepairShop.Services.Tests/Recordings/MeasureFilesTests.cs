using System.Text.Json;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;
using RepairShop.Testing.Recordings;
using Xunit;

namespace RepairShop.Services.Tests.Recordings;

/// <summary>From any samples at all to one well-formed object: figures, or a reason, never neither and never both.</summary>
public sealed class MeasureFilesTests : IDisposable
{
    private const int Cases = 60, Seed = 20_261_125;

    private static readonly int[] Rates = [8_000, 44_100, 48_000];
    private static readonly MarkedSpeed Mark = MarkedSpeed.Parse("1/60").Mark!;

    private readonly string folder = Directory.CreateTempSubdirectory("measured-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Damaged_signals_give_figures_or_a_reason_and_only_finite_numbers()
    {
        var chance = new Random(Seed);
        for (var i = 0; i < Cases; i++)
        {
            var rate = Rates[chance.Next(Rates.Length)];
            var widths = Enumerable.Range(0, chance.Next(4)).Select(_ => Math.Pow(2, -9 + 9 * chance.NextDouble())).ToArray();
            var samples = LightPulses.Signal(rate, LightPulses.Of(widths), Math.Pow(10, -3 * chance.NextDouble()), i);
            for (var harms = chance.Next(4); harms > 0; harms--)
                samples = Harm(samples, chance);
            var path = Path.Combine(folder, $"{i}.wav");
            File.WriteAllBytes(path, WavBytes.Of(rate, WavSamples.Ieee32, false, samples));
            var rig = new Rig
            {
                Coupling = (InputCoupling)chance.Next(3),
                ReferenceExposure = chance.Next(3) == 0 ? chance.Next(1, 4) : null,
            };
            var text = MeasuredFile.Write([MeasureFiles.Measure(path, rig, Mark)]);
            var file = JsonDocument.Parse(text).RootElement[0];
            var ok = file.GetProperty("outcome").GetString() == "ok";
            Assert.True(ok == file.GetProperty("exposures").GetArrayLength() > 0, $"case {i}: {text}");
            Assert.True(ok == (file.GetProperty("message").ValueKind == JsonValueKind.Null), $"case {i}: {text}");
            File.Delete(path);
        }
    }

    /// <summary>One of what happens to a signal on its way, at a place and of a size left to chance.</summary>
    private static float[] Harm(float[] samples, Random chance)
    {
        var from = chance.Next(samples.Length);
        var length = chance.Next(1, Math.Max(2, (samples.Length - from) / 4));
        var part = samples.AsSpan(from, Math.Min(length, samples.Length - from));
        switch (chance.Next(8))
        {
            case 0:
                part.Clear();
                return samples;
            case 1:
                part.Fill((float)(2 * chance.NextDouble() - 1));
                return samples;
            case 2:
                return samples[..Math.Max(1, from)];
            case 3:
                return [.. samples[..from], .. samples[(from + part.Length)..]];
            case 4:
                return [.. samples[..(from + part.Length)], .. part, .. samples[(from + part.Length)..]];
            case 5:
                var ceiling = (float)(chance.NextDouble() * 0.5);
                return [.. samples.Select(value => Math.Clamp(value, -ceiling, ceiling))];
            case 6:
                var (turn, height) = (2 * Math.PI * 50 / 48_000, 0.2 * chance.NextDouble());
                return [.. samples.Select((value, i) => (float)(value + height * Math.Sin(turn * i)))];
            default:
                samples[from] = chance.Next(2) == 0 ? float.MaxValue : -1e30f;
                return samples;
        }
    }

    [Fact]
    public void A_folder_a_file_that_is_away_and_one_without_anything_in_it_have_names_of_their_own()
    {
        var empty = Path.Combine(folder, "empty.wav");
        File.WriteAllBytes(empty, []);
        Assert.Equal(
            ["fileUnreadable", "fileMissing", "fileMissing", "fileMissing", "fileEmpty"],
            new[] { folder, Path.Combine(folder, "none.wav"), Path.Combine(folder, "none", "none.wav"), "", empty }
                .Select(path => MeasureFiles.Measure(path, Rig.OneSensor, null).Outcome));
    }

    [Fact]
    public void More_roles_than_the_file_has_channels_is_the_files_reason()
    {
        var path = Path.Combine(folder, "mono.wav");
        File.WriteAllBytes(path, WavBytes.Of(48_000, WavSamples.Pcm16, false, LightPulses.Signal(48_000, LightPulses.Of(0.01))));
        var measured = MeasureFiles.Measure(path, Rig.OneSensor with { Roles = [ChannelRole.Light, ChannelRole.FlashContact] }, null);
        Assert.Equal("channelsMissing", measured.Outcome);
        Assert.Equal(48_000, measured.SampleRateHz);
    }
}
