using System.Text;
using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;
using UglyToad.PdfPig;

namespace RepairShop.Documents.Tests.Paperwork;

public class EveryPaperTests
{
    public static TheoryData<PaperKind> Kinds => [.. Enum.GetValues<PaperKind>()];

    public static TheoryData<PaperKind> Sheets => [.. Enum.GetValues<PaperKind>().Where(kind => kind is not (PaperKind.ClaimTag or PaperKind.TrayLabel))];

    private static PaperFacts FactsOf(PaperKind kind) => Sample.All.Single(paper => paper.Kind == kind).Facts;

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Qpdf_finds_nothing_wrong(PaperKind kind)
    {
        var said = ReadBack.Run("qpdf", PaperRenderer.Render(kind, FactsOf(kind)).Pdf, "--check", "{}");
        Assert.Contains("No syntax or stream encoding errors found", said);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_same_facts_give_the_same_bytes(PaperKind kind)
    {
        var first = PaperRenderer.Render(kind, FactsOf(kind)).Pdf;
        var again = PaperRenderer.Render(kind, PaperJson.Read(kind, PaperJson.Write(FactsOf(kind)))).Pdf;
        Assert.Equal(Convert.ToHexString(first), Convert.ToHexString(again));
    }

    [Fact]
    public void Other_facts_have_another_identity()
    {
        static string Identity(InvoiceFacts facts)
        {
            var text = Encoding.Latin1.GetString(PaperRenderer.Render(PaperKind.Invoice, facts).Pdf);
            var at = text.LastIndexOf("/ID [<", StringComparison.Ordinal);
            return text.Substring(at, 6 + 32);
        }

        Assert.NotEqual(Identity(Sample.Invoice), Identity(Sample.Invoice with { IssuedBy = "Somebody Else" }));
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Every_page_carries_the_number_and_page_x_of_y_and_the_last_one_an_end(PaperKind kind)
    {
        var facts = FactsOf(kind);
        var paper = PaperRenderer.Render(kind, facts);
        var pages = ReadBack.Pages(paper);
        Assert.Equal(paper.Pages, pages.Count);
        for (var i = 0; i < pages.Count; i++)
        {
            Assert.Contains(facts.PaperNumber, pages[i]);
            Assert.Contains($"page {i + 1} of {pages.Count}", pages[i]);
            Assert.Equal(i == pages.Count - 1, pages[i].Contains("End of "));
        }
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void The_first_page_names_shop_customer_issuer_and_the_camera_it_is_about(PaperKind kind)
    {
        var page = ReadBack.Pages(PaperRenderer.Render(kind, FactsOf(kind)))[0];
        string[] aboutCamera = FactsOf(kind) is RepairPaperFacts ? ["Orrevale Pelter IIb", "218446", "90331", "2026-0417"] : [];
        foreach (var expected in (string[])["Tern Street Cameras", "14 Tern Street", "Havenmouth HM4 2QT", "IE 0000000 EX", "Rowan Teague", "Ines Halloway", .. aboutCamera])
            Assert.Contains(expected, page);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void It_says_it_is_PDF_A_2b_and_embeds_every_font_as_a_subset(PaperKind kind)
    {
        var pdf = PaperRenderer.Render(kind, FactsOf(kind)).Pdf;
        var text = Encoding.Latin1.GetString(pdf);
        Assert.Contains("pdfaid:part>2<", text);
        Assert.Contains("pdfaid:conformance>B<", text);
        var fonts = ReadBack.Run("pdffonts", pdf, "{}").Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(2).ToList();
        Assert.NotEmpty(fonts);
        Assert.All(fonts, font => Assert.Matches("CID TrueType .* yes yes yes", font));
        // Whole faces would be 380 kB each.
        Assert.InRange(pdf.Length, 5_000, 90_000);
    }

    [Theory]
    [InlineData("IE", 595, 842)]
    [InlineData("JP", 595, 842)]
    [InlineData("US", 612, 792)]
    [InlineData("CA", 612, 792)]
    [InlineData("MX", 612, 792)]
    public void The_sheet_is_letter_in_North_America_and_A4_elsewhere(string country, int width, int height)
    {
        var facts = Sample.Invoice with { Shop = Sample.Shop with { Country = country } };
        using var document = PdfDocument.Open(PaperRenderer.Render(PaperKind.Invoice, facts).Pdf);
        Assert.All(document.GetPages(), page => Assert.Equal((width, height), ((int)Math.Round(page.Width), (int)Math.Round(page.Height))));
    }

    [Fact]
    public void A_paper_made_from_the_wrong_facts_is_refused()
    {
        var refused = Assert.Throws<ArgumentException>(() => PaperRenderer.Render(PaperKind.Estimate, Sample.Invoice));
        Assert.StartsWith("A paper of the kind Estimate is made from EstimateFacts, not from InvoiceFacts.", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Papers_are_rendered_the_same_from_many_threads()
    {
        var alone = Convert.ToHexString(PaperRenderer.Render(PaperKind.ServiceRecord, Sample.ServiceRecord).Pdf);
        var together = new string[12];
        Parallel.For(0, together.Length, i => together[i] = Convert.ToHexString(PaperRenderer.Render(PaperKind.ServiceRecord, Sample.ServiceRecord).Pdf));
        Assert.All(together, bytes => Assert.Equal(alone, bytes));
    }

    [Fact]
    public void No_drawing_library_shows_in_a_public_signature()
    {
        var types = typeof(PaperRenderer).Assembly.GetExportedTypes();
        var used = types.SelectMany(type => type.GetMembers().SelectMany(TypesIn)).Select(type => type.Assembly.GetName().Name!).Distinct();
        Assert.DoesNotContain(used, name => name.StartsWith("SkiaSharp", StringComparison.Ordinal) || name.StartsWith("HarfBuzz", StringComparison.Ordinal) || name == "QRCoder");
    }

    private static IEnumerable<Type> TypesIn(System.Reflection.MemberInfo member) => member switch
    {
        System.Reflection.MethodInfo method => [method.ReturnType, .. method.GetParameters().Select(parameter => parameter.ParameterType)],
        System.Reflection.ConstructorInfo constructor => constructor.GetParameters().Select(parameter => parameter.ParameterType),
        System.Reflection.PropertyInfo property => [property.PropertyType],
        System.Reflection.FieldInfo field => [field.FieldType],
        _ => [],
    };
}
