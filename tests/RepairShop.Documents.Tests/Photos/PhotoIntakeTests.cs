using System.Text;
using RepairShop.Documents.Photos;
using RepairShop.Domain.Repairs;
using SkiaSharp;

namespace RepairShop.Documents.Tests.Photos;

[Collection(nameof(Alone))]
public class PhotoIntakeTests
{
    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void A_picture_becomes_a_jpeg_of_at_most_2560_with_a_thumbnail_of_at_most_480(SKEncodedImageFormat format)
    {
        var taken = PhotoIntake.Take(TestPictures.Encoded(3000, 1500, format), "camera.bin").Value!;
        Assert.Equal((2560, 1280), (taken.Width, taken.Height));
        Assert.Equal((2560, 1280), SizeOf(taken.Jpeg));
        Assert.Equal((480, 240), SizeOf(taken.Thumbnail));
        Assert.Equal("RGBW", TestPictures.Corners(taken.Jpeg));
        Assert.Equal("RGBW", TestPictures.Corners(taken.Thumbnail));
        Assert.Equal(0xFFD8, taken.Jpeg[0] << 8 | taken.Jpeg[1]);
    }

    [Fact]
    public void A_small_picture_is_not_blown_up()
    {
        var taken = PhotoIntake.Take(TestPictures.Jpeg(300, 200), "small.jpg").Value!;
        Assert.Equal((300, 200), (taken.Width, taken.Height));
        Assert.Equal((300, 200), SizeOf(taken.Thumbnail));
    }

    [Fact]
    public void A_picture_of_one_pixel_is_a_picture() => Assert.Equal(1, PhotoIntake.Take(TestPictures.Png(1, 1), "dot.png").Value!.Width);

    [Theory]
    [InlineData(1, "RGBW", 400, 200)]
    [InlineData(2, "GRWB", 400, 200)]
    [InlineData(3, "WBGR", 400, 200)]
    [InlineData(4, "BWRG", 400, 200)]
    [InlineData(5, "RBGW", 200, 400)]
    [InlineData(6, "BRWG", 200, 400)]
    [InlineData(7, "WGBR", 200, 400)]
    [InlineData(8, "GWRB", 200, 400)]
    public void The_eight_EXIF_orientations_come_out_upright(int orientation, string corners, int width, int height)
    {
        var taken = PhotoIntake.Take(TestPictures.WithExif(TestPictures.Jpeg(400, 200), (ushort)orientation), "held.jpg").Value!;
        Assert.Equal((width, height), (taken.Width, taken.Height));
        Assert.Equal(corners, TestPictures.Corners(taken.Jpeg));
        Assert.Equal(corners, TestPictures.Corners(taken.Thumbnail));
    }

    [Fact]
    public void Where_and_with_what_it_was_taken_is_not_kept()
    {
        var upload = TestPictures.WithExif(TestPictures.Jpeg(400, 200), 1);
        Assert.Contains("SecretPlace", Encoding.Latin1.GetString(upload));
        var taken = PhotoIntake.Take(upload, "held.jpg").Value!;
        foreach (var kept in new[] { Encoding.Latin1.GetString(taken.Jpeg), Encoding.Latin1.GetString(taken.Thumbnail) })
        {
            Assert.DoesNotContain("SecretPlace", kept);
            Assert.DoesNotContain("Exif", kept);
        }
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    public void Sixty_megapixels_are_taken_in_without_holding_them_all(SKEncodedImageFormat format)
    {
        var upload = TestPictures.Encoded(9504, 6336, format);
        GC.Collect();
        var before = PeakFromNow();
        var taken = PhotoIntake.Take(upload, "large").Value!;
        Assert.Equal((2560, 1707), (taken.Width, taken.Height));
        Assert.Equal("RGBW", TestPictures.Corners(taken.Jpeg));
        using var process = System.Diagnostics.Process.GetCurrentProcess();
        // Whole, its pixels are 241 MB.
        Assert.InRange(process.PeakWorkingSet64 - before, 1_000_000, 160_000_000);
    }

    /// <summary>Starts the kernel's count of the greatest memory anew (proc(5), clear_refs) and says where it starts.</summary>
    private static long PeakFromNow()
    {
        File.WriteAllText("/proc/self/clear_refs", "5");
        using var process = System.Diagnostics.Process.GetCurrentProcess();
        return process.WorkingSet64;
    }

    [Fact]
    public void Text_named_jpg_is_not_a_picture()
    {
        var failure = PhotoIntake.Take("Dear sir, attached my camera"u8, "holiday.jpg").Failure;
        Assert.Equal(new NotAPicture("holiday.jpg"), failure);
        Assert.Equal("“holiday.jpg” is not a picture this program can read: send a JPEG, PNG or WebP.", failure!.Message);
    }

    [Theory]
    [InlineData("heic")]
    [InlineData("heix")]
    [InlineData("mif1")]
    public void Heic_is_told_what_to_do(string brand)
    {
        byte[] file = [0, 0, 0, 24, .. "ftyp"u8, .. Encoding.ASCII.GetBytes(brand), 0, 0, 0, 0, .. "mif1heic"u8];
        var failure = PhotoIntake.Take(file, "IMG_1.HEIC").Failure;
        Assert.Equal(new HeicPicture("IMG_1.HEIC"), failure);
        Assert.Contains("Most compatible", failure!.Message);
    }

    [Fact]
    public void Nothing_is_not_a_picture() => Assert.IsType<NotAPicture>(PhotoIntake.Take([], "empty.jpg").Failure);

    [Fact]
    public void A_picture_cut_off_on_the_way_is_damaged()
    {
        var whole = TestPictures.Jpeg(2000, 2000);
        Assert.Equal(new PictureDamaged("cut.jpg"), PhotoIntake.Take(whole.AsSpan(0, whole.Length / 2), "cut.jpg").Failure);
        Assert.Equal(new PictureDamaged("cut.jpg"), PhotoIntake.Take(whole.AsSpan(0, 20), "cut.jpg").Failure);
    }

    [Fact]
    public void Twenty_five_megabytes_are_taken_and_one_byte_more_is_not()
    {
        var picture = TestPictures.Jpeg(100, 100);
        var file = new byte[PhotoIntake.MostBytes + 1];
        picture.CopyTo(file, 0);
        Assert.True(PhotoIntake.Take(file.AsSpan(0, file.Length - 1), "big.jpg").IsDone);
        Assert.Equal(new PictureFileTooLarge("big.jpg", 25_000_001), PhotoIntake.Take(file, "big.jpg").Failure);
    }

    [Fact]
    public void More_than_a_hundred_megapixels_are_refused_before_they_are_opened()
    {
        // A PNG header alone: width 10001, height 10000; the pixels would never come.
        byte[] header = [(byte)'I', (byte)'H', (byte)'D', (byte)'R', 0, 0, 0x27, 0x11, 0, 0, 0x27, 0x10, 8, 2, 0, 0, 0];
        var crc = Crc32(header);
        byte[] file = [0x89, .. "PNG\r\n"u8, 0x1A, 0x0A, 0, 0, 0, 13, .. header, .. crc, 0, 0, 0, 1, .. "IDAT"u8, 0, 0, 0, 0, 0];
        Assert.Equal(new PictureTooManyPixels("huge.png", 10001, 10000), PhotoIntake.Take(file, "huge.png").Failure);
    }

    /// <summary>ISO 3309, as PNG uses it.</summary>
    private static byte[] Crc32(byte[] bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
                crc = (crc & 1) != 0 ? crc >> 1 ^ 0xEDB88320u : crc >> 1;
        }
        crc = ~crc;
        return [(byte)(crc >> 24), (byte)(crc >> 16), (byte)(crc >> 8), (byte)crc];
    }

    private static (int Width, int Height) SizeOf(byte[] picture)
    {
        using var codec = SKCodec.Create(SKData.CreateCopy(picture));
        Assert.Equal(SKEncodedOrigin.TopLeft, codec.EncodedOrigin);
        return (codec.Info.Width, codec.Info.Height);
    }
}
