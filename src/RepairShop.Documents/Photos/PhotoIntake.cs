using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using SkiaSharp;

namespace RepairShop.Documents.Photos;

/// <summary>Makes of an uploaded file a photo fit to keep, or says why not. Decides by what is in the file, never by its name.</summary>
public static class PhotoIntake
{
    public const long MostBytes = 25_000_000;
    public const long MostPixels = 100_000_000;
    public const int LongEdge = 2560;
    public const int ThumbnailEdge = 480;

    private const int Quality = 86;

    /// <param name="file">The uploaded bytes.</param>
    /// <param name="fileName">Only for the message.</param>
    public static Result<StoredPicture> Take(ReadOnlySpan<byte> file, string fileName)
    {
        if (file.Length > MostBytes)
            return new PictureFileTooLarge(fileName, file.Length);
        if (IsHeic(file))
            return new HeicPicture(fileName);
        if (!IsKnownPicture(file))
            return new NotAPicture(fileName);
        using var data = SKData.CreateCopy(file);
        using var codec = SKCodec.Create(data);
        if (codec is null || codec.Info.Width < 1 || codec.Info.Height < 1)
            return new PictureDamaged(fileName);
        if ((long)codec.Info.Width * codec.Info.Height > MostPixels)
            return new PictureTooManyPixels(fileName, codec.Info.Width, codec.Info.Height);

        using var decoded = ScaledDecode.Decode(codec, LongEdge);
        if (decoded is null)
            return new PictureDamaged(fileName);
        using var upright = Upright(decoded, codec.EncodedOrigin, LongEdge);
        using var small = Upright(upright, SKEncodedOrigin.TopLeft, ThumbnailEdge);
        return new StoredPicture(Encode(upright), upright.Width, upright.Height, Encode(small));
    }

    /// <summary>An ISO media file (ISO/IEC 14496-12) whose brands are those of HEIF (ISO/IEC 23008-12) or AVIF.</summary>
    private static bool IsHeic(ReadOnlySpan<byte> file) =>
        file.Length >= 12 && file[4..8].SequenceEqual("ftyp"u8)
        && (file[8..12].SequenceEqual("heic"u8) || file[8..12].SequenceEqual("heix"u8) || file[8..12].SequenceEqual("hevc"u8) || file[8..12].SequenceEqual("hevx"u8)
            || file[8..12].SequenceEqual("heim"u8) || file[8..12].SequenceEqual("heis"u8) || file[8..12].SequenceEqual("mif1"u8) || file[8..12].SequenceEqual("msf1"u8)
            || file[8..12].SequenceEqual("avif"u8));

    private static bool IsKnownPicture(ReadOnlySpan<byte> file) =>
        file.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])
        || file.StartsWith((ReadOnlySpan<byte>)[0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A])
        || (file.Length >= 12 && file.StartsWith("RIFF"u8) && file[8..12].SequenceEqual("WEBP"u8));

    /// <summary>Drawn onto white at its final size, turned as the camera said it was held.</summary>
    private static SKBitmap Upright(SKBitmap source, SKEncodedOrigin origin, int longEdge)
    {
        var turned = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var scale = Math.Min(1f, longEdge / (float)Math.Max(source.Width, source.Height));
        var (width, height) = (Math.Max(1, (int)MathF.Round(source.Width * scale)), Math.Max(1, (int)MathF.Round(source.Height * scale)));
        var (outWidth, outHeight) = turned ? (height, width) : (width, height);
        var upright = new SKBitmap(new SKImageInfo(outWidth, outHeight, SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
        using var canvas = new SKCanvas(upright);
        canvas.Clear(SKColors.White);
        canvas.SetMatrix(Turn(origin, outWidth, outHeight));
        using var image = SKImage.FromBitmap(source);
        canvas.DrawImage(image, SKRect.Create(width, height), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        return upright;
    }

    /// <summary>From the sensor's corner to the picture's, for the eight orientations of EXIF (CIPA DC-008, tag 0x0112).</summary>
    private static SKMatrix Turn(SKEncodedOrigin origin, float width, float height) => origin switch
    {
        SKEncodedOrigin.TopRight => new SKMatrix(-1, 0, width, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new SKMatrix(-1, 0, width, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new SKMatrix(1, 0, 0, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new SKMatrix(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new SKMatrix(0, -1, width, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new SKMatrix(0, -1, width, -1, 0, height, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new SKMatrix(0, 1, 0, -1, 0, height, 0, 0, 1),
        _ => SKMatrix.Identity,
    };

    private static byte[] Encode(SKBitmap bitmap)
    {
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return data.ToArray();
    }
}
