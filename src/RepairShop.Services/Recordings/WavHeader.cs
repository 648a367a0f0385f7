using System.Buffers.Binary;
using System.Text;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Recordings;

/// <summary>
/// What a WAV file's header says, read before the decoder sees the file, so that a header that can't be true is refused with its place and
/// nothing is allocated on its word (Microsoft/IBM "Multimedia Programming Interface and Data Specifications 1.0", RIFF WAVE, 1991).
/// </summary>
internal sealed record WavHeader(int Channels, int Rate, int Bits, bool Float, long DataAt, long DataBytes)
{
    public const int LeastRate = 8_000, MostRate = 192_000, MostChannels = 8;

    private const int PcmTag = 1, FloatTag = 3, ExtensibleTag = 0xFFFE;
    private const string TheRiff = "the RIFF header", TheFormat = "the “fmt ” part";

    // The tail every sub-format identifier shares; its first two bytes are the plain tag (Microsoft, WAVEFORMATEXTENSIBLE).
    private static readonly byte[] SubFormatTail = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71];

    // The first four bytes of a W64 file are those of RIFF in small letters.
    private static readonly (string Magic, string Name)[] Others =
        [("RIFX", "a big-endian RIFX file"), ("RF64", "an RF64 file"), ("BW64", "a BW64 file"), ("riff", "a W64 file"), ("FORM", "an AIFF file"), ("fLaC", "a FLAC file"), ("OggS", "an Ogg file"), ("ID3\u0003", "an MP3 file")];

    /// <summary>Whether the bytes at the head of a file are those of a sound container, rather than of a text.</summary>
    public static bool Looks(ReadOnlySpan<byte> head)
    {
        if (head.Length < 4)
            return false;
        var magic = Encoding.Latin1.GetString(head[..4]);
        return magic == "RIFF" || Others.Any(other => other.Magic == magic);
    }

    public int FrameBytes => Channels * Bits / 8;

    public static Result<WavHeader> Read(Stream file)
    {
        var head = new byte[12];
        var got = file.ReadAtLeast(head, 12, throwOnEndOfStream: false);
        var magic = Encoding.Latin1.GetString(head, 0, Math.Min(got, 4));
        if (Others.FirstOrDefault(other => other.Magic == magic).Name is { } name)
            return new OtherContainer(name);
        if (got < 12)
            return new HeaderTruncated(got, TheRiff);
        if (Encoding.Latin1.GetString(head, 8, 4) is var form && form != "WAVE")
            return new OtherContainer(form == "AVI " ? "an AVI film" : "a RIFF file of another kind");
        long riff = BinaryPrimitives.ReadUInt32LittleEndian(head.AsSpan(4));
        // An odd last chunk may be padded outside what the size counts; nothing else may be missing.
        return riff + 8 > file.Length + 1 ? new LengthWrong(4, TheRiff, riff, file.Length - 8) : Chunks(file, Math.Min(riff + 8, file.Length));
    }

    private static Result<WavHeader> Chunks(Stream file, long end)
    {
        WavHeader? format = null;
        (long At, long Bytes)? data = null;
        var head = new byte[8];
        for (var at = 12L; at < end;)
        {
            file.Position = at;
            if (end - at < 8)
                // One byte left over is the padding of an odd chunk.
                return end - at == 1 && data is not null ? Whole(format, data) : new HeaderTruncated(end, "a part’s header");
            file.ReadExactly(head);
            var name = Encoding.Latin1.GetString(head, 0, 4);
            long bytes = BinaryPrimitives.ReadUInt32LittleEndian(head.AsSpan(4));
            if (at + 8 + bytes > end)
                return new LengthWrong(at + 4, $"the “{Visible(name)}” part", bytes, end - at - 8);
            if (name == "fmt ")
            {
                if (format is not null)
                    return new PartTwice(at, name);
                var read = Format(file, at + 8, bytes);
                if (!read.IsDone)
                    return read;
                format = read.Value;
            }
            else if (name == "data")
            {
                if (data is not null)
                    return new PartTwice(at, name);
                data = (at + 8, bytes);
            }

            at += 8 + bytes + (bytes & 1);
        }

        return Whole(format, data);
    }

    private static Result<WavHeader> Whole(WavHeader? format, (long At, long Bytes)? data)
    {
        if (format is null)
            return new PartMissing("fmt ");
        if (data is not { } samples)
            return new PartMissing("data");
        if (samples.Bytes % format.FrameBytes != 0)
            return new FormatContradicts(samples.At - 4, $"{samples.Bytes} bytes of samples are no whole number of {format.FrameBytes} bytes");
        var seconds = samples.Bytes / format.FrameBytes / (double)format.Rate;
        return seconds > RecordingReader.MostSeconds ? new TooLong(seconds) : format with { DataAt = samples.At, DataBytes = samples.Bytes };
    }

    private static Result<WavHeader> Format(Stream file, long at, long bytes)
    {
        if (bytes < 16)
            return new LengthWrong(at - 4, TheFormat, bytes, 16);
        var text = new byte[Math.Min(bytes, 40)];
        file.ReadExactly(text);
        int Two(int from) => BinaryPrimitives.ReadUInt16LittleEndian(text.AsSpan(from));
        long Four(int from) => BinaryPrimitives.ReadUInt32LittleEndian(text.AsSpan(from));
        var (tag, channels, rate, perSecond, frame, bits) = (Two(0), Two(2), Four(4), Four(8), Two(12), Two(14));
        if (channels == 0)
            return new NoChannels(at + 2);
        if (channels > MostChannels)
            return new TooManyChannels(at + 2, channels);
        if (rate is < LeastRate or > MostRate)
            return new RateOutOfRange($"At byte {at + 4}", rate, LeastRate, MostRate);
        if (tag == ExtensibleTag)
        {
            if (bytes < 40)
                return new LengthWrong(at - 4, TheFormat, bytes, 40);
            if (!text.AsSpan(26, 14).SequenceEqual(SubFormatTail))
                return new EncodingNotRead(at + 24, "an unknown sub-format");
            if (Two(18) is var valid && (valid > bits || valid == 0))
                return new FormatContradicts(at + 18, $"{valid} valid bits of {bits}");
            tag = Two(24);
        }

        if (!((tag == PcmTag && bits is 8 or 16 or 24 or 32) || (tag == FloatTag && bits is 32 or 64)) || (tag == FloatTag && bits < 32))
            return new EncodingNotRead(at, tag switch { PcmTag => $"{bits}-bit PCM", FloatTag => $"{bits}-bit float", _ => $"encoding {tag}" });
        if (frame != channels * bits / 8)
            return new FormatContradicts(at + 12, $"{channels} channels of {bits} bits are not {frame} bytes");
        return perSecond == rate * frame
            ? new WavHeader(channels, (int)rate, bits, tag == FloatTag, 0, 0)
            : new FormatContradicts(at + 8, $"{rate} times {frame} bytes a second are not {perSecond}");
    }

    private static string Visible(string name) => string.Concat(name.Select(letter => letter is >= ' ' and <= '~' ? letter : '?'));
}
