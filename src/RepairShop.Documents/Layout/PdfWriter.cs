using System.Text;
using RepairShop.Documents.Text;
using SkiaSharp;

namespace RepairShop.Documents.Layout;

/// <summary>Writes laid-out pages as a PDF with PDF/A-2b metadata. The same pages and details give the same bytes.</summary>
internal static class PdfWriter
{
    public static byte[] Write(IReadOnlyList<Ink> pages, SheetSize size, PdfDetails details)
    {
        // Skia writes in very many small pieces: a stream of its own spares a call back into the runtime for each.
        using var stream = new SKDynamicMemoryWStream();
        var moment = details.Created.UtcDateTime;
        var metadata = new SKDocumentPdfMetadata
        {
            Title = details.Title,
            Author = details.Author,
            Subject = details.Subject,
            Creator = "Workshop book",
            Producer = "Skia/PDF",
            Creation = moment,
            Modified = moment,
            PdfA = true,
            RasterDpi = 300,
            EncodingQuality = 101,
        };
        using (var subsets = new Subsets(pages))
        using (var document = SKDocument.CreatePdf(stream, metadata))
        {
            foreach (var page in pages)
            {
                var canvas = document.BeginPage(size.Width, size.Height);
                foreach (var mark in page.Marks)
                    Draw(canvas, mark, subsets);
                document.EndPage();
            }
            document.Close();
        }
        using var written = stream.DetachAsData();
        return PdfIdentity.Fix(written.ToArray());
    }

    private static void Draw(SKCanvas canvas, InkMark mark, Subsets subsets)
    {
        switch (mark)
        {
            case InkText text:
                DrawText(canvas, text, subsets);
                break;
            case InkLine line:
                using (var paint = Paint(line.Color, line.Width))
                using (var dash = line.Dashed ? SKPathEffect.CreateDash([2, 2], 0) : null)
                {
                    paint.PathEffect = dash;
                    canvas.DrawLine(line.X1, line.Y1, line.X2, line.Y2, paint);
                }
                break;
            case InkRect rect:
                using (var paint = Paint(rect.Color, null))
                    canvas.DrawRect(rect.X, rect.Y, rect.Width, rect.Height, paint);
                break;
            case InkDot dot:
                if (dot.StrokeWidth is not null)
                    using (var ground = Paint(Palette.Paper, null))
                        canvas.DrawCircle(dot.X, dot.Y, dot.Radius, ground);
                using (var paint = Paint(dot.Color, dot.StrokeWidth))
                    canvas.DrawCircle(dot.X, dot.Y, dot.Radius, paint);
                break;
            case InkImage image:
                using (var data = SKData.CreateCopy(image.Jpeg))
                using (var picture = SKImage.FromEncodedData(data))
                    canvas.DrawImage(picture, SKRect.Create(image.X, image.Y, image.Width, image.Height), new SKSamplingOptions(SKCubicResampler.Mitchell));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(mark), mark, "No such mark.");
        }
    }

    private static SKPaint Paint(uint color, float? strokeWidth) => new()
    {
        Color = new SKColor(0xff000000 | color),
        IsAntialias = true,
        Style = strokeWidth is null ? SKPaintStyle.Fill : SKPaintStyle.Stroke,
        StrokeWidth = strokeWidth ?? 0,
    };

    private static void DrawText(SKCanvas canvas, InkText text, Subsets subsets)
    {
        var run = text.Run;
        var (font, subset) = subsets.For(run.Face, run.Style.Size);
        using var builder = new SKTextBlobBuilder();
        var utf8 = Encoding.UTF8.GetBytes(run.Text);
        var buffer = builder.AllocateRawPositionedTextRun(font, run.Glyphs.Length, utf8.Length, null);
        for (var i = 0; i < run.Glyphs.Length; i++)
        {
            buffer.Glyphs[i] = subset.NewId(run.Glyphs[i]);
            buffer.Positions[i] = new SKPoint(run.Offsets[i].X, run.Offsets[i].Y);
            buffer.Clusters[i] = run.Clusters[i];
        }
        utf8.CopyTo(buffer.Text);
        using var blob = builder.Build();
        using var paint = Paint(run.Style.Color, null);
        if (blob is not null)
            canvas.DrawText(blob, text.X, text.Baseline, paint);
    }

    /// <summary>The faces of one paper, cut to what it uses.</summary>
    private sealed class Subsets : IDisposable
    {
        private readonly Dictionary<FontFace, (SKTypeface Typeface, FontSubset Subset)> _cut = [];
        private readonly Dictionary<(FontFace Face, float Size), SKFont> _fonts = [];

        public Subsets(IReadOnlyList<Ink> pages)
        {
            var runs = pages.SelectMany(page => page.Marks).OfType<InkText>().Select(text => text.Run);
            foreach (var group in runs.GroupBy(run => run.Face))
            {
                var codePoints = group.Where(run => run.Glyphs is not [0]).SelectMany(run => run.Text.EnumerateRunes()).Select(rune => rune.Value);
                var subset = FontSubset.Cut(group.Key, group.SelectMany(run => run.Glyphs), codePoints);
                using var data = SKData.CreateCopy(subset.Bytes);
                var typeface = SKTypeface.FromData(data)
                    ?? throw new InvalidOperationException($"The cut font {group.Key.Name} cannot be read back.");
                _cut[group.Key] = (typeface, subset);
            }
        }

        public (SKFont Font, FontSubset Subset) For(FontFace face, float size)
        {
            var (typeface, subset) = _cut[face];
            if (!_fonts.TryGetValue((face, size), out var font))
                _fonts[(face, size)] = font = new SKFont(typeface, size) { Subpixel = true, Hinting = SKFontHinting.None };
            return (font, subset);
        }

        public void Dispose()
        {
            foreach (var font in _fonts.Values)
                font.Dispose();
            foreach (var (typeface, _) in _cut.Values)
                typeface.Dispose();
        }
    }
}

/// <summary>What the PDF says of itself.</summary>
internal sealed record PdfDetails(string Title, string Author, string Subject, DateTimeOffset Created);
