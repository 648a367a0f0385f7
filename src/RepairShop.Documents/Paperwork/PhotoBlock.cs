using RepairShop.Documents.Layout;
using SkiaSharp;

namespace RepairShop.Documents.Paperwork;

/// <summary>A stored photo on paper; its JPEG goes into the PDF as it is.</summary>
internal static class PhotoBlock
{
    public static ImageBlock Of(byte[] jpeg, float greatestHeight)
    {
        using var data = SKData.CreateCopy(jpeg);
        using var codec = SKCodec.Create(data) ?? throw new ArgumentException("A stored photo cannot be read as a picture.", nameof(jpeg));
        return new ImageBlock(jpeg, codec.Info.Width, codec.Info.Height, greatestHeight);
    }
}
