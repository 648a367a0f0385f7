using SkiaSharp;

namespace RepairShop.Documents.Tests;

/// <summary>Pictures made by code: red top left, green top right, blue bottom left, white bottom right.</summary>
internal static class TestPictures
{
    public static byte[] Jpeg(int width, int height) => Encoded(width, height, SKEncodedImageFormat.Jpeg);

    public static byte[] Png(int width, int height) => Encoded(width, height, SKEncodedImageFormat.Png);

    public static byte[] Encoded(int width, int height, SKEncodedImageFormat format)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.White);
            Fill(canvas, 0, 0, width / 2f, height / 2f, SKColors.Red);
            Fill(canvas, width / 2f, 0, width / 2f, height / 2f, SKColors.Lime);
            Fill(canvas, 0, height / 2f, width / 2f, height / 2f, SKColors.Blue);
        }
        using var data = bitmap.Encode(format, 90);
        return data.ToArray();
    }

    private static void Fill(SKCanvas canvas, float x, float y, float width, float height, SKColor color)
    {
        using var paint = new SKPaint { Color = color };
        canvas.DrawRect(x, y, width, height, paint);
    }

    /// <summary>The JPEG with an EXIF block that names an orientation, a maker and a place (CIPA DC-008).</summary>
    public static byte[] WithExif(byte[] jpeg, ushort orientation)
    {
        byte[] secret = [.. "SecretPlace\0"u8];
        byte[] tiff =
        [
            (byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8, 0, 2,
            0x01, 0x0F, 0, 2, 0, 0, 0, (byte)secret.Length, 0, 0, 0, 38,
            0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0,
            0, 0, 0, 0,
            .. secret,
        ];
        byte[] body = [.. "Exif\0\0"u8, .. tiff];
        var length = body.Length + 2;
        return [0xFF, 0xD8, 0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. body, .. jpeg.AsSpan(2)];
    }

    /// <summary>The corners' colours as letters: R, G, B, W; anything else is ?.</summary>
    public static string Corners(byte[] picture)
    {
        using var bitmap = SKBitmap.Decode(picture);
        (int X, int Y)[] at = [(bitmap.Width / 8, bitmap.Height / 8), (bitmap.Width * 7 / 8, bitmap.Height / 8), (bitmap.Width / 8, bitmap.Height * 7 / 8), (bitmap.Width * 7 / 8, bitmap.Height * 7 / 8)];
        return string.Concat(at.Select(point => bitmap.GetPixel(point.X, point.Y) switch
        {
            { Red: > 200, Green: > 200, Blue: > 200 } => 'W',
            { Red: > 200, Green: < 60, Blue: < 60 } => 'R',
            { Red: < 60, Green: > 200, Blue: < 60 } => 'G',
            { Red: < 60, Green: < 60, Blue: > 200 } => 'B',
            _ => '?',
        }));
    }
}
