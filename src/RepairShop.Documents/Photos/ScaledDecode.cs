using System.Runtime.InteropServices;
using SkiaSharp;

namespace RepairShop.Documents.Photos;

/// <summary>
/// Reads a picture no larger than needed. A JPEG is decoded at an eighth to seven eighths by its codec; another format is read
/// in strips and every n × n pixels become one, so that 100 million pixels never stand in memory at once.
/// </summary>
internal static class ScaledDecode
{
    /// <summary>What may be decoded whole where a format can be read in no other way: 40 million pixels are 160 MB.</summary>
    private const long MostPixelsWhole = 40_000_000;

    private const int StripBytes = 48_000_000;

    /// <returns>At least the wanted edge long where the picture is; null when it cannot be read to its end.</returns>
    public static SKBitmap? Decode(SKCodec codec, int longEdge)
    {
        var full = codec.Info;
        var scale = Math.Min(1f, longEdge / (float)Math.Max(full.Width, full.Height));
        var size = scale < 1 ? codec.GetScaledDimensions(scale) : full.Size;
        // The codec rounds to the nearest scale it has: one that came out too small is taken a step larger.
        for (var step = scale; Math.Max(size.Width, size.Height) < Math.Min(longEdge, Math.Max(full.Width, full.Height)) && step < 1; step = Math.Min(1, step + 0.125f))
            size = codec.GetScaledDimensions(step);
        if ((long)size.Width * size.Height <= 4L * longEdge * longEdge)
            return Whole(codec, size);
        return ByStrips(codec, longEdge) ?? ((long)full.Width * full.Height <= MostPixelsWhole ? Whole(codec, full.Size) : null);
    }

    private static SKBitmap? Whole(SKCodec codec, SKSizeI size)
    {
        var bitmap = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb()));
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) == SKCodecResult.Success)
            return bitmap;
        bitmap.Dispose();
        return null;
    }

    /// <summary>PNG can only be read from its top: strip by strip, each pass skipping what the ones before have read.</summary>
    private static SKBitmap? ByStrips(SKCodec codec, int longEdge)
    {
        var info = new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb());
        var n = Math.Max(1, Math.Max(info.Width, info.Height) / longEdge);
        var (width, height) = (info.Width / n, info.Height / n);
        var strip = Math.Clamp(StripBytes / (info.RowBytes * n), 1, height);
        var bitmap = new SKBitmap(info.WithSize(width, height));
        var lines = new byte[strip * n * info.RowBytes];
        var pin = GCHandle.Alloc(lines, GCHandleType.Pinned);
        try
        {
            for (var y = 0; y < height; y += strip)
            {
                var rows = Math.Min(strip, height - y);
                var subset = new SKRectI(0, y * n, info.Width, (y + rows) * n);
                if (codec.StartIncrementalDecode(info, pin.AddrOfPinnedObject(), info.RowBytes, new SKCodecOptions(subset)) != SKCodecResult.Success
                    || codec.IncrementalDecode() != SKCodecResult.Success)
                {
                    bitmap.Dispose();
                    return null;
                }
                for (var row = 0; row < rows; row++)
                    Average(lines.AsSpan(row * n * info.RowBytes), info.RowBytes, n, bitmap.GetPixelSpan().Slice((y + row) * bitmap.RowBytes, width * 4));
            }
            return bitmap;
        }
        finally
        {
            pin.Free();
        }
    }

    private static void Average(ReadOnlySpan<byte> lines, int rowBytes, int n, Span<byte> to)
    {
        for (var x = 0; x < to.Length / 4; x++)
            for (var channel = 0; channel < 4; channel++)
            {
                var sum = 0;
                for (var line = 0; line < n; line++)
                    for (var pixel = 0; pixel < n; pixel++)
                        sum += lines[line * rowBytes + (x * n + pixel) * 4 + channel];
                to[x * 4 + channel] = (byte)((sum + n * n / 2) / (n * n));
            }
    }
}
