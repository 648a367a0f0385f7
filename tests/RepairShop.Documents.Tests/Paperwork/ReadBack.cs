using System.Diagnostics;
using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;
using UglyToad.PdfPig;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>Reads what was printed with two programs that know nothing of how it was made.</summary>
internal static class ReadBack
{
    /// <summary>Text of all pages as PdfPig finds it, words in page order.</summary>
    public static IReadOnlyList<string> Pages(RenderedPaper paper)
    {
        using var document = PdfDocument.Open(paper.Pdf);
        return [.. document.GetPages().Select(page => string.Join(' ', page.GetWords().Select(word => word.Text)))];
    }

    public static string Words(PaperKind kind, PaperFacts facts) => string.Join(' ', Pages(PaperRenderer.Render(kind, facts)));

    /// <summary>What poppler's pdftotext makes of it, runs of white space as one space.</summary>
    public static string PdfToText(RenderedPaper paper) =>
        string.Join(' ', Run("pdftotext", paper.Pdf, "-enc", "UTF-8", "-layout", "{}", "-").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Runs a program on the PDF's file, named {} among its arguments; fails with what it printed when it does not like the file.</summary>
    public static string Run(string program, byte[] pdf, params string[] arguments)
    {
        var file = Path.Combine(Path.GetTempPath(), $"paper-{Guid.NewGuid():N}.pdf");
        File.WriteAllBytes(file, pdf);
        try
        {
            var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true };
            foreach (var argument in arguments)
                start.ArgumentList.Add(argument == "{}" ? file : argument);
            using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
            var errors = process.StandardError.ReadToEndAsync();
            var output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, $"{program}: {output}{errors.Result}");
            return output;
        }
        finally
        {
            File.Delete(file);
        }
    }
}
