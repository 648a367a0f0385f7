using NAudio.Wave;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>Reads WAV files of 8, 16, 24 and 32-bit PCM and 32 and 64-bit float, plain and extensible, with NAudio.</summary>
internal static class WavReader
{
    private const int BlockFrames = 8192;

    public static Result<Recording> Read(Stream file)
    {
        var header = WavHeader.Read(file);
        if (!header.IsDone)
            return header.Failure;
        var said = header.Value;
        file.Position = 0;
        try
        {
            using var wav = new WaveFileReader(file);
            return wav.Length == said.DataBytes
                ? Samples(wav.ToSampleProvider(), said)
                : new FormatContradicts(said.DataAt - 4, $"{said.DataBytes} bytes of samples are read as {wav.Length}");
        }
        catch (Exception odd) when (odd is FormatException or ArgumentException or InvalidOperationException or NotSupportedException or EndOfStreamException)
        {
            return new DecoderRefused(odd.Message);
        }
    }

    private static Result<Recording> Samples(ISampleProvider samples, WavHeader said)
    {
        var frames = (int)(said.DataBytes / said.FrameBytes);
        var channels = new float[said.Channels][];
        for (var channel = 0; channel < said.Channels; channel++)
            channels[channel] = new float[frames];
        var block = new float[BlockFrames * said.Channels];
        var done = 0;
        while (done < frames)
        {
            var got = samples.Read(block.AsSpan(0, Math.Min(BlockFrames, frames - done) * said.Channels)) / said.Channels;
            if (got == 0)
                return new HeaderTruncated(said.DataAt + (long)done * said.FrameBytes, "the samples");
            for (var channel = 0; channel < said.Channels; channel++)
                Spread(block, channel, said.Channels, channels[channel].AsSpan(done, got));
            done += got;
        }

        return said.Float && FirstOdd(channels) is { } odd
            ? new NotFinite($"Channel {odd.Channel + 1}, sample {odd.Sample} (byte {said.DataAt + odd.Sample * said.FrameBytes + odd.Channel * said.Bits / 8})")
            : new Recording(said.Rate, channels);
    }

    private static void Spread(float[] block, int channel, int channels, Span<float> into)
    {
        for (var i = 0; i < into.Length; i++)
            into[i] = block[i * channels + channel];
    }

    private static (int Channel, long Sample)? FirstOdd(float[][] channels)
    {
        for (var sample = 0; sample < channels[0].Length; sample++)
        {
            for (var channel = 0; channel < channels.Length; channel++)
            {
                if (!float.IsFinite(channels[channel][sample]))
                    return (channel, sample);
            }
        }

        return null;
    }
}
