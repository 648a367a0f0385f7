using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace RepairShop.Documents.Layout;

/// <summary>
/// A paper with its electronic invoice inside: PDF/A-3b (ISO 19005-3:2012) with the file embedded as Factur-X 1.0 asks, in the profile
/// EN 16931. Pages, fonts and pictures keep their bytes; the same paper and invoice give the same file.
/// </summary>
public static class HybridPdf
{
    /// <summary>What Factur-X calls the file inside.</summary>
    public const string AttachmentName = "factur-x.xml";

    private const string Producer = "PDFsharp 6.2.4 on Skia/PDF";

    /// <param name="pdf">As <see cref="PdfWriter"/> writes it, with PDF/A-2b metadata.</param>
    /// <param name="cii">The invoice as Cross Industry Invoice.</param>
    /// <param name="written">When the paper was issued; the attachment's date.</param>
    public static byte[] Embed(byte[] pdf, byte[] cii, DateTimeOffset written)
    {
        ArgumentNullException.ThrowIfNull(pdf);
        ArgumentNullException.ThrowIfNull(cii);
        using var source = new MemoryStream(pdf, writable: false);
        using var document = PdfReader.Open(source, PdfDocumentOpenMode.Modify);
        var catalog = document.Internals.Catalog;
        var plain = catalog.Elements.GetDictionary("/Metadata")?.Stream.UnfilteredValue
            ?? throw new InvalidOperationException("The PDF has no metadata to build on.");
        catalog.Elements.Remove("/Metadata"); // a new one is made on saving
        document.Version = 17;
        document.Options.ColorMode = PdfColorMode.Undefined; // or each page gets a transparency group of its own
        var date = PdfDate(written);
        KeepSizes(document);
        Attach(document, cii, date);
        // Opening for change drew a new identity and the time of now.
        document.Info.Elements.SetString("/ModDate", date);
        document.Info.Elements.SetString("/Producer", Producer);
        document.Internals.SecondDocumentID = Encoding.Latin1.GetString(SHA256.HashData([.. pdf, .. cii])[..16]);
        using var saved = new MemoryStream();
        document.Save(saved);
        return WithMetadata(saved.ToArray(), XmpOf(Encoding.UTF8.GetString(plain)));
    }

    private static void Attach(PdfDocument document, byte[] cii, string date)
    {
        var file = new PdfDictionary(document);
        file.CreateStream(cii);
        file.Elements.SetName("/Type", "/EmbeddedFile");
        file.Elements.SetName("/Subtype", "/text/xml");
        var about = new PdfDictionary(document);
        about.Elements.SetInteger("/Size", cii.Length);
        about.Elements.SetString("/ModDate", date);
        file.Elements["/Params"] = about;
        document.Internals.AddObject(file);

        var places = new PdfDictionary(document);
        places.Elements["/F"] = places.Elements["/UF"] = file.Reference!;
        var specification = new PdfDictionary(document);
        specification.Elements.SetName("/Type", "/Filespec");
        specification.Elements.SetString("/F", AttachmentName);
        specification.Elements["/UF"] = new PdfString(AttachmentName, PdfStringEncoding.Unicode);
        specification.Elements.SetString("/Desc", "The invoice as EN 16931, Cross Industry Invoice");
        specification.Elements.SetName("/AFRelationship", "/Alternative");
        specification.Elements["/EF"] = places;
        document.Internals.AddObject(specification);

        var catalog = document.Internals.Catalog;
        var embedded = new PdfDictionary(document);
        embedded.Elements["/Names"] = new PdfArray(document, new PdfString(AttachmentName), specification.Reference!);
        var names = new PdfDictionary(document);
        names.Elements["/EmbeddedFiles"] = embedded;
        catalog.Elements["/Names"] = names;
        catalog.Elements["/AF"] = new PdfArray(document, specification.Reference!);
    }

    /// <summary>The library rounds a page's size to a thousandth of a point, which moves every edge a painter smooths: it is given as it was.</summary>
    private static void KeepSizes(PdfDocument document)
    {
        foreach (var page in document.Pages)
        {
            var box = page.MediaBox;
            page.Elements["/MediaBox"] = new PdfLiteral(string.Create(CultureInfo.InvariantCulture, $"[{box.X1:0.#####} {box.Y1:0.#####} {box.X2:0.#####} {box.Y2:0.#####}]"));
        }
    }

    private static string PdfDate(DateTimeOffset moment) => $"D:{moment.UtcDateTime.ToString("yyyyMMddHHmmss", CultureInfo.InvariantCulture)}+00'00'";

    private static string XmpOf(string plain)
    {
        var at = plain.IndexOf("</rdf:RDF>", StringComparison.Ordinal);
        if (at < 0 || !plain.Contains(">2</pdfaid:part>", StringComparison.Ordinal))
            throw new InvalidOperationException("The PDF's metadata has an unknown shape: the invoice cannot be announced in it.");
        return plain.Insert(at, Announcement)
            .Replace(">2</pdfaid:part>", ">3</pdfaid:part>", StringComparison.Ordinal)
            .Replace("Skia/PDF", Producer, StringComparison.Ordinal);
    }

    /// <summary>
    /// The library puts metadata of its own, with an identity drawn anew, into the file as its last object: ours takes that place, and
    /// nothing but the table behind it moves.
    /// </summary>
    private static byte[] WithMetadata(byte[] saved, string xmp)
    {
        var text = Encoding.Latin1.GetString(saved); // one character is one byte
        var pointer = text.LastIndexOf("startxref\n", StringComparison.Ordinal);
        var table = text.LastIndexOf("\nxref\n", pointer, StringComparison.Ordinal) + 1;
        var trailer = text.IndexOf("trailer\n", table, StringComparison.Ordinal);
        // An entry of the table has twenty characters and begins with ten digits, the object's place.
        var place = int.Parse(text.AsSpan(trailer - 20, 10), CultureInfo.InvariantCulture);
        var last = text[place..table];
        if (!last.Contains("/Metadata", StringComparison.Ordinal))
            throw new InvalidOperationException("The saved PDF does not end with its metadata: they cannot be set.");
        var metadata = Encoding.UTF8.GetBytes(xmp);
        var head = $"{text[..place]}{last[..last.IndexOf(' ', StringComparison.Ordinal)]} 0 obj\n<</Type/Metadata/Subtype/XML/Length {metadata.Length}>>\nstream\n{Encoding.Latin1.GetString(metadata)}\nendstream\nendobj\n";
        return Encoding.Latin1.GetBytes($"{head}{text[table..pointer]}startxref\n{head.Length}\n%%EOF\n");
    }

    /// <summary>The Factur-X namespace, explained as PDF/A asks (ISO 19005-3, 6.6.2.3.3), and what it says of this file.</summary>
    private const string Announcement = """
        <rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
        <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
        <pdfaSchema:schema>Factur-X PDFA Extension Schema</pdfaSchema:schema>
        <pdfaSchema:namespaceURI>urn:factur-x:pdfa:CrossIndustryDocument:invoice:1p0#</pdfaSchema:namespaceURI>
        <pdfaSchema:prefix>fx</pdfaSchema:prefix>
        <pdfaSchema:property><rdf:Seq>
        <rdf:li rdf:parseType="Resource"><pdfaProperty:name>DocumentFileName</pdfaProperty:name><pdfaProperty:valueType>Text</pdfaProperty:valueType><pdfaProperty:category>external</pdfaProperty:category><pdfaProperty:description>The name of the embedded XML document</pdfaProperty:description></rdf:li>
        <rdf:li rdf:parseType="Resource"><pdfaProperty:name>DocumentType</pdfaProperty:name><pdfaProperty:valueType>Text</pdfaProperty:valueType><pdfaProperty:category>external</pdfaProperty:category><pdfaProperty:description>The type of the hybrid document in capital letters, e.g. INVOICE or ORDER</pdfaProperty:description></rdf:li>
        <rdf:li rdf:parseType="Resource"><pdfaProperty:name>Version</pdfaProperty:name><pdfaProperty:valueType>Text</pdfaProperty:valueType><pdfaProperty:category>external</pdfaProperty:category><pdfaProperty:description>The actual version of the standard applying to the embedded XML document</pdfaProperty:description></rdf:li>
        <rdf:li rdf:parseType="Resource"><pdfaProperty:name>ConformanceLevel</pdfaProperty:name><pdfaProperty:valueType>Text</pdfaProperty:valueType><pdfaProperty:category>external</pdfaProperty:category><pdfaProperty:description>The conformance level of the embedded XML document</pdfaProperty:description></rdf:li>
        </rdf:Seq></pdfaSchema:property>
        </rdf:li></rdf:Bag></pdfaExtension:schemas>
        </rdf:Description>
        <rdf:Description rdf:about="" xmlns:fx="urn:factur-x:pdfa:CrossIndustryDocument:invoice:1p0#">
        <fx:DocumentType>INVOICE</fx:DocumentType>
        <fx:DocumentFileName>factur-x.xml</fx:DocumentFileName>
        <fx:Version>1.0</fx:Version>
        <fx:ConformanceLevel>EN 16931</fx:ConformanceLevel>
        </rdf:Description>

        """;
}
