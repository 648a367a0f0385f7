using System.Text;
using System.Xml.Linq;
using RepairShop.Documents.EInvoices;
using RepairShop.Documents.Layout;
using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;
using UglyToad.PdfPig;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>
/// What Factur-X 1.0 (its technical annex on PDF/A-3) and ISO 19005-3:2012 ask of the file around an invoice, as far as programs at hand can
/// see it. Nothing at hand certifies PDF/A-3.
/// </summary>
public class HybridPdfTests
{
    private static readonly XNamespace Fx = "urn:factur-x:pdfa:CrossIndustryDocument:invoice:1p0#";
    private static readonly XNamespace PdfaId = "http://www.aiim.org/pdfa/ns/id/";

    private static byte[] Plain(InvoiceFacts facts) => PaperRenderer.Render(KindOf(facts), facts).Pdf;

    private static PaperKind KindOf(InvoiceFacts facts) => facts.CreditsNumber is null ? PaperKind.Invoice : PaperKind.CreditNote;

    private static byte[] Hybrid(InvoiceFacts facts) => HybridPdf.Embed(Plain(facts), CiiInvoice.Write(facts), facts.IssuedAt);

    public static TheoryData<string> Papers => ["invoice", "credit note", "300 lines", "names"];

    private static InvoiceFacts FactsOf(string paper) => paper switch
    {
        "invoice" => Sample.Invoice,
        "credit note" => Sample.CreditNote,
        "300 lines" => Sample.InvoiceOf(300),
        _ => Sample.Invoice with { Customer = Sample.Customer with { Name = "A & <B> Łukasz Ωmega 田中 علي" }, Shop = Sample.Shop with { Name = "Ślusarska (Nguyễn) \\ Söhne" } },
    };

    [Theory]
    [MemberData(nameof(Papers))]
    public void Qpdf_finds_no_fault_and_poppler_takes_the_same_invoice_out_again(string paper)
    {
        var facts = FactsOf(paper);
        var pdf = Hybrid(facts);
        var said = ReadBack.Run("qpdf", pdf, "--check", "{}");
        Assert.Contains("No syntax or stream encoding errors found", said);
        Assert.Contains("PDF Version: 1.7", said);
        Assert.Contains("1: factur-x.xml", ReadBack.Run("pdfdetach", pdf, "-list", "{}"));
        var file = Path.Combine(Path.GetTempPath(), $"{Guid.NewGuid():N}.xml");
        ReadBack.Run("pdfdetach", pdf, "-save", "1", "-o", file, "{}");
        Assert.Equal(CiiInvoice.Write(facts), File.ReadAllBytes(file));
        File.Delete(file);
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Pages_look_and_read_as_on_the_plain_paper(string paper)
    {
        var facts = FactsOf(paper);
        var (plain, hybrid) = (Plain(facts), Hybrid(facts));
        Assert.Equal(Looks(plain), Looks(hybrid));
        Assert.Equal(ReadBack.Run("pdftotext", plain, "-layout", "{}", "-"), ReadBack.Run("pdftotext", hybrid, "-layout", "{}", "-"));
        Assert.Equal(ReadBack.Run("pdffonts", plain, "{}").Split('\n').Select(NoNumber), ReadBack.Run("pdffonts", hybrid, "{}").Split('\n').Select(NoNumber));
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Every_stream_of_the_plain_paper_but_its_metadata_is_in_it_byte_for_byte(string paper)
    {
        var facts = FactsOf(paper);
        var before = Streams(Plain(facts));
        var after = Streams(Hybrid(facts));
        Assert.True(before.Count > 5);
        Assert.Single(before.Except(after)); // the metadata
        Assert.Equal(2, after.Except(before).Count()); // its successor and the invoice
    }

    [Fact]
    public void PdfPig_reads_the_attachment_and_the_catalog_points_at_it()
    {
        var pdf = Hybrid(Sample.Invoice);
        using var document = PdfDocument.Open(pdf);
        Assert.True(document.Advanced.TryGetEmbeddedFiles(out var files));
        var file = Assert.Single(files);
        Assert.Equal(("factur-x.xml", CiiInvoice.Write(Sample.Invoice).Length), (file.Name, file.Memory.Length));
        Assert.Equal(CiiInvoice.Write(Sample.Invoice), file.Memory.ToArray());
        var text = Encoding.Latin1.GetString(pdf);
        Assert.Matches(@"/AF ?\[[0-9]+ 0 R\]", text);
        Assert.Matches("/AFRelationship ?/Alternative", text);
        Assert.Matches("/Subtype ?/text#2Fxml", text);
        Assert.Matches(@"/Params ?<<.*/ModDate ?\(D:20261124[0-9]{6}\+00'00'\)", text);
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void The_metadata_say_PDF_A_3b_and_what_is_inside(string paper)
    {
        var pdf = Hybrid(FactsOf(paper));
        using var document = PdfDocument.Open(pdf);
        Assert.True(document.TryGetXmpMetadata(out var xmp));
        // Decoded here: PdfPig takes the packet for Latin-1, though it says UTF-8 by its byte order mark.
        var root = XDocument.Parse(Encoding.UTF8.GetString(xmp.GetXmlMemory().Span)).Root!;
        string Value(XName name) => root.Descendants(name).Single().Value;
        Assert.Equal(("3", "B"), (Value(PdfaId + "part"), Value(PdfaId + "conformance")));
        Assert.Equal(("INVOICE", "factur-x.xml", "1.0", "EN 16931"), (Value(Fx + "DocumentType"), Value(Fx + "DocumentFileName"), Value(Fx + "Version"), Value(Fx + "ConformanceLevel")));
        // ISO 19005-3, 6.6.2.3: each property of a schema not predefined is described.
        XNamespace property = "http://www.aiim.org/pdfa/ns/property#";
        Assert.Equal(
            root.Descendants().Where(element => element.Name.Namespace == Fx).Select(element => element.Name.LocalName).Order(),
            root.Descendants(property + "name").Select(element => element.Value).Order());
        XNamespace dc = "http://purl.org/dc/elements/1.1/", pdfSpace = "http://ns.adobe.com/pdf/1.3/";
        Assert.Equal((document.Information.Title, document.Information.Author), (Value(dc + "title"), Value(dc + "creator")));
        Assert.Equal(document.Information.Producer, Value(pdfSpace + "Producer"));
        Assert.Equal("PDFsharp 6.2.4 on Skia/PDF", document.Information.Producer);
    }

    [Fact]
    public void The_same_facts_give_the_same_bytes_from_many_threads_and_another_invoice_other_identity()
    {
        var alone = Convert.ToHexString(Hybrid(Sample.Invoice));
        var together = new string[8];
        Parallel.For(0, together.Length, i => together[i] = Convert.ToHexString(Hybrid(Sample.Invoice)));
        Assert.All(together, bytes => Assert.Equal(alone, bytes));
        string Identity(InvoiceFacts facts) => Encoding.Latin1.GetString(Hybrid(facts)) is var text ? text[text.LastIndexOf("/ID", StringComparison.Ordinal)..] : "";
        Assert.NotEqual(Identity(Sample.Invoice).Split("startxref")[0], Identity(Sample.Invoice with { Complaint = "Another" }).Split("startxref")[0]);
    }

    [Fact]
    public void The_version_named_in_the_file_is_the_library_s_own()
    {
        var version = typeof(PdfSharp.Pdf.PdfDocument).Assembly.GetName().Version!;
        Assert.Equal("6.2.4", version.ToString(3));
    }

    /// <summary>Each page as poppler paints it at 60 dpi.</summary>
    private static string Looks(byte[] pdf)
    {
        var folder = Directory.CreateTempSubdirectory("looks-");
        ReadBack.Run("pdftoppm", pdf, "-r", "60", "{}", Path.Combine(folder.FullName, "p"));
        var pages = folder.GetFiles().OrderBy(file => file.Name, StringComparer.Ordinal)
            .Select(file => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(file.FullName)))).ToList();
        folder.Delete(recursive: true);
        Assert.NotEmpty(pages);
        return string.Join(' ', pages);
    }

    /// <summary>pdffonts ends each line with the object's number, which a new file may give out anew.</summary>
    private static string NoNumber(string line) => line.Length > 80 ? line[..80] : line;

    private static List<string> Streams(byte[] pdf)
    {
        using var document = PdfSharp.Pdf.IO.PdfReader.Open(new MemoryStream(pdf), PdfSharp.Pdf.IO.PdfDocumentOpenMode.Import);
        return [.. document.Internals.GetAllObjects().OfType<PdfSharp.Pdf.PdfDictionary>().Where(item => item.Stream is not null)
            .Select(item => Convert.ToHexString(item.Stream.Value)).Order()];
    }
}
