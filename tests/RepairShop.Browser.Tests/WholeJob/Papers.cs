using MimeKit;
using RepairShop.Testing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;
using Xunit;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>What left the building: letters as .eml files with papers in them, read back with other programs than wrote them.</summary>
internal static class Papers
{
    public static async Task ReadEstimateAsync(ShopProcess shop)
    {
        var (letter, paper) = await LetterAsync(shop, "Estimate");
        Assert.Equal(Figures.CustomerEmail, Assert.Single(letter.To.Mailboxes).Address);
        Assert.Equal(Figures.ShopEmail, Assert.Single(letter.From.Mailboxes).Address);
        Assert.Contains(Figures.Plain(Figures.EstimateLow), paper, StringComparison.Ordinal);
        Assert.Contains(Figures.Plain(Figures.EstimateHigh), paper, StringComparison.Ordinal);
        Assert.Contains(Figures.Camera, paper, StringComparison.Ordinal);
    }

    public static async Task ReadInvoiceAsync(ShopProcess shop, string number)
    {
        var (letter, paper) = await LetterAsync(shop, number);
        Assert.Equal(Figures.CustomerEmail, Assert.Single(letter.To.Mailboxes).Address);
        Assert.Contains(number, letter.Subject, StringComparison.Ordinal);
        Assert.Contains(number, paper, StringComparison.Ordinal);
        Assert.Contains(Figures.Plain(Figures.InvoiceNet), paper, StringComparison.Ordinal);
        Assert.Contains(Figures.Plain(Figures.InvoiceTotal - Figures.InvoiceNet), paper, StringComparison.Ordinal);
        Assert.Contains(Figures.Plain(Figures.InvoiceTotal), paper, StringComparison.Ordinal);
        Assert.Contains("BE68 5390 0754 7034", paper, StringComparison.Ordinal);
    }

    public static async Task ReadServiceRecordAsync(ShopProcess shop)
    {
        var (_, paper) = await LetterAsync(shop, "Service record");
        foreach (var speed in Figures.AsReceived.Concat(Figures.AfterService))
            Assert.Contains(speed.ErrorStops, paper, StringComparison.Ordinal);
        Assert.Contains("Old oil has set on the pallet", paper, StringComparison.Ordinal);
        Assert.Contains("This workshop’s own", paper, StringComparison.Ordinal);
    }

    /// <summary>The post goes out by a worker of its own: a letter may take a moment.</summary>
    public static async Task<(MimeMessage Letter, string Paper)> LetterAsync(ShopProcess shop, string subject)
    {
        var folder = Path.Combine(shop.DataDirectory, "post");
        for (var tries = 0; tries < 150; tries++)
        {
            foreach (var file in Directory.Exists(folder) ? Directory.GetFiles(folder, "*.eml") : [])
            {
                var letter = await MimeMessage.LoadAsync(file);
                if (letter.Subject is { } about && about.Contains(subject, StringComparison.OrdinalIgnoreCase))
                    return (letter, TextOf(letter));
            }
            await Task.Delay(200);
        }
        throw new TimeoutException($"No letter about “{subject}” in thirty seconds; there are: {string.Join(", ", Directory.GetFiles(folder))}.");
    }

    private static string TextOf(MimeMessage letter)
    {
        var attached = letter.Attachments.OfType<MimePart>().Single(part => part.ContentType.MimeType == "application/pdf");
        using var bytes = new MemoryStream();
        (attached.Content ?? throw new InvalidOperationException($"The paper in “{letter.Subject}” is empty.")).DecodeTo(bytes);
        using var document = PdfDocument.Open(bytes.ToArray());
        return string.Join('\n', document.GetPages().Select(page => ContentOrderTextExtractor.GetText(page)));
    }
}
