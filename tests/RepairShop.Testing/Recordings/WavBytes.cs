using System.Buffers.Binary;
using System.Text;

namespace RepairShop.Testing.Recordings;

/// <summary>How a test's WAV file writes its samples.</summary>
public enum WavSamples
{
    Pcm8,
    Pcm16,
    Pcm24,
    Pcm32,
    Ieee32,
    Ieee64,
}

/// <summary>WAV files made byte by byte, apart from the library that reads them.</summary>
public static class WavBytes
{
    private static readonly byte[] SubFormatTail = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71];

    public static byte[] Of(int rate, WavSamples kind, bool extensible, params float[][] channels)
    {
        var bits = Bits(kind);
        var tag = kind is WavSamples.Ieee32 or WavSamples.Ieee64 ? 3 : 1;
        var frame = channels.Length * bits / 8;
        using var format = new MemoryStream();
        using (var to = new BinaryWriter(format))
        {
            to.Write((ushort)(extensible ? 0xFFFE : tag));
            to.Write((ushort)channels.Length);
            to.Write(rate);
            to.Write(rate * frame);
            to.Write((ushort)frame);
            to.Write((ushort)bits);
            if (extensible)
            {
                to.Write((ushort)22);
                to.Write((ushort)bits);
                to.Write(0);
                to.Write((ushort)tag);
                to.Write(SubFormatTail);
            }
        }

        return Riff(("fmt ", format.ToArray()), ("data", Samples(kind, channels)));
    }

    /// <summary>A RIFF WAVE file of these parts, each padded to an even length.</summary>
    public static byte[] Riff(params (string Name, byte[] Content)[] parts)
    {
        using var body = new MemoryStream();
        using (var to = new BinaryWriter(body, Encoding.Latin1, leaveOpen: true))
        {
            to.Write("WAVE"u8);
            foreach (var (name, content) in parts)
            {
                to.Write(Encoding.Latin1.GetBytes(name));
                to.Write(content.Length);
                to.Write(content);
                if (content.Length % 2 == 1)
                    to.Write((byte)0);
            }
        }

        var size = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, (int)body.Length);
        return [.. "RIFF"u8, .. size, .. body.ToArray()];
    }

    private static int Bits(WavSamples kind) => kind switch { WavSamples.Pcm8 => 8, WavSamples.Pcm16 => 16, WavSamples.Pcm24 => 24, WavSamples.Ieee64 => 64, _ => 32 };

    private static byte[] Samples(WavSamples kind, float[][] channels)
    {
        using var bytes = new MemoryStream();
        using var to = new BinaryWriter(bytes);
        for (var i = 0; i < channels[0].Length; i++)
        {
            foreach (var channel in channels)
                Write(to, kind, channel[i]);
        }

        return bytes.ToArray();
    }

    private static void Write(BinaryWriter to, WavSamples kind, float value)
    {
        switch (kind)
        {
            case WavSamples.Pcm8:
                to.Write((byte)(128 + (int)Math.Round(value * 127)));
                break;
            case WavSamples.Pcm16:
                to.Write((short)Math.Round(value * 32767));
                break;
            case WavSamples.Pcm24:
                var three = (int)Math.Round(value * 8388607);
                to.Write([(byte)three, (byte)(three >> 8), (byte)(three >> 16)]);
                break;
            case WavSamples.Pcm32:
                to.Write((int)Math.Round(value * 2147483647.0));
                break;
            case WavSamples.Ieee32:
                to.Write(value);
                break;
            default:
                to.Write((double)value);
                break;
        }
    }
}
