using System.Buffers.Binary;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Services.Recordings;
using RepairShop.Testing.Recordings;
using Xunit;

namespace RepairShop.Services.Tests.Recordings;

public sealed class WavReaderTests
{
    private const int Rate = 48_000, DataLength = 40, DataAt = 44;

    private static readonly float[] Ramp = [.. Enumerable.Range(-50, 101).Select(i => i / 60f)];

    internal static Result<ReadRecording> Read(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes);
        return RecordingReader.Read(stream);
    }

    private static byte[] Plain() => WavBytes.Of(Rate, WavSamples.Pcm16, false, Ramp);

    private static byte[] With(int at, uint value)
    {
        var bytes = Plain();
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(at), value);
        return bytes;
    }

    private static byte[] With16(int at, ushort value)
    {
        var bytes = Plain();
        BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(at), value);
        return bytes;
    }

    /// <summary>One step of each encoding, and no more, may be lost.</summary>
    [Theory]
    [InlineData(WavSamples.Pcm8, 0.012)]
    [InlineData(WavSamples.Pcm16, 4e-5)]
    [InlineData(WavSamples.Pcm24, 3e-7)]
    [InlineData(WavSamples.Pcm32, 1.3e-7)]
    [InlineData(WavSamples.Ieee32, 0)]
    [InlineData(WavSamples.Ieee64, 0)]
    public void Every_encoding_gives_its_samples_back(WavSamples kind, double step)
    {
        foreach (var extensible in new[] { false, true })
        {
            var read = Read(WavBytes.Of(44_100, kind, extensible, Ramp, [.. Ramp.Reverse()]));
            Assert.True(read.IsDone, read.Failure?.Message);
            var recording = read.Value.Recording;
            Assert.Equal((RecordingKind.Wav, 44_100.0, 2, Ramp.Length), (read.Value.Kind, recording.SampleRateHz, recording.ChannelCount, recording.SampleCount));
            for (var i = 0; i < Ramp.Length; i++)
            {
                Assert.InRange(recording.Channel(0)[i], Ramp[i] - step, Ramp[i] + step);
                Assert.InRange(recording.Channel(1)[i], Ramp[^(i + 1)] - step, Ramp[^(i + 1)] + step);
            }
        }
    }

    [Theory]
    [InlineData(7_999, false)]
    [InlineData(8_000, true)]
    [InlineData(192_000, true)]
    [InlineData(192_001, false)]
    public void Rates_from_8_to_192_kHz_are_read(int rate, bool isRead)
    {
        var read = Read(WavBytes.Of(rate, WavSamples.Pcm16, false, Ramp));
        Assert.Equal(isRead, read.IsDone);
        if (!isRead)
            Assert.Equal(new RateOutOfRange("At byte 24", rate, 8_000, 192_000), read.Failure);
    }

    [Fact]
    public void A_file_without_samples_is_a_recording_without_samples() =>
        Assert.Equal(0, Read(WavBytes.Of(Rate, WavSamples.Pcm16, false, [[]])).Value!.Recording.SampleCount);

    [Fact]
    public void Unknown_parts_and_odd_lengths_are_passed_over()
    {
        var plain = Plain();
        var with = WavBytes.Riff(("LIST", new byte[13]), ("fmt ", plain[20..36]), ("cue ", new byte[3]), ("data", plain[DataAt..]), ("junk", new byte[5]));
        Assert.Equal(Ramp.Length, Read(with).Value!.Recording.SampleCount);
    }

    [Fact]
    public void Ten_minutes_are_read_and_a_second_more_is_not()
    {
        Assert.True(Read(WavBytes.Of(8_000, WavSamples.Pcm8, false, new float[8_000 * 600])).IsDone);
        Assert.Equal(new TooLong(601), Read(WavBytes.Of(8_000, WavSamples.Pcm8, false, new float[8_000 * 601])).Failure);
    }

    [Fact]
    public void Wrong_lengths_are_refused_with_their_place()
    {
        var plain = Plain();
        Assert.Equal(new LengthWrong(DataLength, "the “data” part", 0x80000000, plain.Length - DataAt), Read(With(DataLength, 0x80000000)).Failure);
        Assert.Equal(new LengthWrong(4, "the RIFF header", uint.MaxValue, plain.Length - 8), Read(With(4, uint.MaxValue)).Failure);
        Assert.Equal(new LengthWrong(16, "the “fmt ” part", 14, 16), Read(With(16, 14)).Failure);
        Assert.IsType<LengthWrong>(Read(With(16, 0x7FFFFFFF)).Failure);
        Assert.IsType<LengthWrong>(Read(plain[..^20]).Failure);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(19)]
    [InlineData(30)]
    [InlineData(40)]
    [InlineData(43)]
    public void A_truncated_header_is_refused_wherever_it_is_cut(int length) => Assert.False(Read(Plain()[..length]).IsDone);

    [Fact]
    public void Formats_that_can_not_be_are_refused_with_their_place()
    {
        Assert.Equal(new NoChannels(22), Read(With16(22, 0)).Failure);
        Assert.Equal(new TooManyChannels(22, 9), Read(With16(22, 9)).Failure);
        Assert.IsType<FormatContradicts>(Read(With16(22, 3)).Failure);
        Assert.IsType<FormatContradicts>(Read(With(28, 1)).Failure);
        Assert.Equal(new EncodingNotRead(20, "encoding 2"), Read(With16(20, 2)).Failure);
        Assert.Equal(new EncodingNotRead(20, "12-bit PCM"), Read(With16(34, 12)).Failure);
        Assert.Equal(new EncodingNotRead(20, "16-bit float"), Read(With16(20, 3)).Failure);
        Assert.Equal(new PartMissing("data"), Read(WavBytes.Riff(("fmt ", Plain()[20..36]))).Failure);
        Assert.Equal(new PartMissing("fmt "), Read(WavBytes.Riff(("data", new byte[8]))).Failure);
        Assert.Equal(new PartTwice(36, "fmt "), Read(WavBytes.Riff(("fmt ", Plain()[20..36]), ("fmt ", Plain()[20..36]), ("data", new byte[8]))).Failure);
    }

    [Theory]
    [InlineData("RIFX", "WAVE", "a big-endian RIFX file")]
    [InlineData("RF64", "WAVE", "an RF64 file")]
    [InlineData("riff", "WAVE", "a W64 file")]
    [InlineData("RIFF", "AVI ", "an AVI film")]
    [InlineData("RIFF", "sfbk", "a RIFF file of another kind")]
    [InlineData("FORM", "AIFF", "an AIFF file")]
    public void Other_containers_are_named(string magic, string form, string name)
    {
        byte[] bytes = [.. System.Text.Encoding.Latin1.GetBytes(magic), .. Plain()[4..8], .. System.Text.Encoding.Latin1.GetBytes(form), .. Plain()[12..]];
        Assert.Equal(new OtherContainer(name), Read(bytes).Failure);
    }

    [Theory]
    [InlineData(float.NaN)]
    [InlineData(float.PositiveInfinity)]
    [InlineData(float.NegativeInfinity)]
    public void A_value_that_is_no_number_is_refused_with_its_sample(float odd)
    {
        float[] samples = [.. Ramp];
        samples[17] = odd;
        Assert.Equal(new NotFinite("Channel 2, sample 17 (byte 184)"), Read(WavBytes.Of(Rate, WavSamples.Ieee32, false, Ramp, samples)).Failure);
    }

    [Fact]
    public void What_is_no_recording_is_named()
    {
        Assert.Equal(new FileEmpty(), Read([]).Failure);
        Assert.Equal(new NotARecording(), Read([0, 1, 2, 3, 4, 5]).Failure);
        Assert.Equal(new FileMissing(), RecordingReader.Read(Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString())).Failure);
        Assert.Equal(new FileUnreadable(), RecordingReader.Read(Path.GetTempPath()).Failure);
    }
}
