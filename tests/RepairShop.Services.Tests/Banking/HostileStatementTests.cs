using System.Text;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Services.Banking;
using RepairShop.Testing;
using Xunit;
using static RepairShop.Testing.Banking.CamtFiles;

namespace RepairShop.Services.Tests.Banking;

/// <summary>Files that are something else, or that lie, end in a named refusal, in bounded time and memory.</summary>
public sealed class HostileStatementTests
{
    private const int Cases = 4_000, Seed = 20_261_126;

    private const string Table = "Buchungstag;Name;IBAN;Zweck;Betrag;Währung\n24.11.2026;Ada Muster;DE89370400440532013000;\"I-2026-0001; danke\";1.072,60;EUR\n25.11.2026;Bea;;x;-5,00;EUR\n";

    public static TheoryData<byte[], StatementRefused> OtherFiles => new()
    {
        { [], new StatementEmpty() },
        { "%PDF-1.7 …"u8.ToArray(), new OtherFile("a PDF", "a PDF is for reading; ask your bank for CAMT.053 (XML) or CSV.") },
        { [(byte)'P', (byte)'K', 3, 4, 0, 0], new OtherFile("a ZIP file or a spreadsheet", "unpack it first, or save the sheet as CSV.") },
        { [0xD0, 0xCF, 0x11, 0xE0, 1], new OtherFile("an old spreadsheet", "save it as CSV first.") },
        { [0x1F, 0x8B, 8], new OtherFile("a packed file", "unpack it first.") },
        { [0xFF, 0xD8, 0xFF, 0xE0], new OtherFile("a picture", "ask your bank for CAMT.053 (XML) or CSV.") },
        { "Date;Amo\0unt\n2026-11-24;1\n"u8.ToArray(), new OtherFile("not text", "ask your bank for CAMT.053 (XML) or CSV.") },
        { Encoding.Unicode.GetBytes(Table), new OtherFile("not text", "ask your bank for CAMT.053 (XML) or CSV.") },
        { "<!doctype html><html></html>"u8.ToArray(), new OtherFile("a web page", "the bank’s site may have asked for a sign-in instead; sign in and download the statement again.") },
        { ":20:STARTUMS\n:25:1234\n"u8.ToArray(), new OtherFile("an MT940 file", "ask your bank for CAMT.053 (XML) or CSV.") },
        { new byte[StatementImportService.MostBytes + 1], new StatementTooLarge(StatementImportService.MostBytes + 1) },
    };

    [Theory]
    [MemberData(nameof(OtherFiles))]
    public void A_file_of_another_kind_is_named_whatever_its_name_says(byte[] bytes, StatementRefused refused) => Assert.Equal(refused, Refused(bytes));

    [Fact]
    public void XML_that_is_cut_off_or_broken_is_refused_with_its_line()
    {
        var whole = Document(8, "\n" + Statement(Paid("1.00", "A", "b")));
        Assert.IsType<XmlBroken>(Refused(Bytes(whole[..^30])));
        Assert.Equal(2, Assert.IsType<XmlBroken>(Refused(Bytes(whole.Replace("</Amt>", "</Amount>", StringComparison.Ordinal)))).Line);
        Assert.IsType<XmlBroken>(Refused(Bytes(whole.Replace("<Nm>A", "<Nm>&unknown;", StringComparison.Ordinal))));
        Assert.IsType<XmlBroken>(Refused(Bytes(whole.Replace("UTF-8", "no-such-code", StringComparison.Ordinal))));
        Assert.IsType<XmlBroken>(Refused(Bytes(whole.Replace("<Nm>A", "<Nm>&#0;", StringComparison.Ordinal))));
    }

    [Fact]
    public void A_document_type_of_its_own_is_refused_before_any_entity_grows_or_is_fetched()
    {
        const string Laughs = """<?xml version="1.0"?><!DOCTYPE d [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]><Document>&c;</Document>""";
        const string Fetches = """<?xml version="1.0"?><!DOCTYPE d SYSTEM "http://files.example.com/evil.dtd"><Document/>""";
        Assert.Equal(new XmlDeclaresEntities(), Refused(Bytes(Laughs)));
        Assert.Equal(new XmlDeclaresEntities(), Refused(Bytes(Fetches)));
    }

    [Theory]
    [InlineData("urn:iso:std:iso:20022:tech:xsd:camt.052.001.08", "camt.052")]
    [InlineData("urn:iso:std:iso:20022:tech:xsd:camt.054.001.08", "camt.054")]
    [InlineData("urn:iso:std:iso:20022:tech:xsd:camt.053.001.14", "camt.053.001.14")]
    [InlineData("urn:iso:std:iso:20022:tech:xsd:camt.053.001.01", "camt.053.001.01")]
    [InlineData("urn:iso:std:iso:20022:tech:xsd:pain.001.001.09", "urn:iso:std:iso:20022:tech:xsd:pain.001.001.09")]
    [InlineData("http://example.com/other", "http://example.com/other")]
    [InlineData("", "without a namespace")]
    public void Another_message_is_named(string space, string told) => Assert.Equal(
        told, Assert.IsType<OtherXml>(Refused(Bytes(Document(8, Statement(Entry("1.00"))).Replace("urn:iso:std:iso:20022:tech:xsd:camt.053.001.08", space, StringComparison.Ordinal)))).Namespace);

    [Fact]
    public void Depth_width_and_number_are_limited()
    {
        Assert.IsType<XmlTooDeep>(Refused(Bytes(Document(8, Statement($"<Ntry>{Repeat("<a>", 100_000)}{Repeat("</a>", 100_000)}</Ntry>")))));
        Assert.IsType<XmlTooDeep>(Refused(Bytes(Document(8, Repeat("<a>", 100_000) + Repeat("</a>", 100_000)))));
        Assert.IsType<XmlTooFull>(Refused(Bytes(Document(8, Statement($"<Ntry>{Repeat("<a/>", 1_000_000)}</Ntry>")))));
        var small = Entry("1.00").Replace("\n", "", StringComparison.Ordinal);
        small = small[..small.IndexOf("<ValDt>", StringComparison.Ordinal)] + "</Ntry>";
        Assert.Equal(new TooManyEntries(20_000), Refused(Bytes(Document(8, Statement(Repeat(small, 20_001))))));
        Assert.IsType<StatementTooLarge>(Refused(Bytes(Document(8, Statement(Repeat(small, 1_000_000))))));
    }

    /// <summary>A text in a million pieces must not be put together anew with each of them.</summary>
    [Fact]
    public void A_text_in_very_many_pieces_costs_what_it_is_long()
    {
        var file = Bytes(Document(8, Statement(Entry("1.00", extra: $"<AddtlNtryInf>{Repeat("a<!-- -->", 900_000)}</AddtlNtryInf>"))));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var read = MoneyBook.Done(CamtReader.Read(file));
        Assert.Equal(BankLine.LongestText, read.Lines[0].Text.Length);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, 1_000_000_000); // in pieces squared it is hundreds of times as much
    }

    [Fact]
    public void A_table_of_separators_alone_is_refused_at_its_first_line_within_its_memory()
    {
        var bytes = Encoding.UTF8.GetBytes("2026-11-24;1.00;\n" + Repeat(new string(';', 9_999) + "\n", 900));
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal(new TooManyStatementColumns(2, 10_000), Refused(bytes));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, 100_000_000);
    }

    [Fact]
    public void A_changed_camt_file_is_read_or_refused_by_name()
    {
        var good = Bytes(Document(8, Statement(
            Paid("72.60", "Łukasz", "I-2026-0001", "RF18539007547034", "R-1") + Entry("15.50", Details("A", "", amount: "10.00") + Details("B", "", amount: "5.50")),
            Balance("OPBD", "1.00") + Balance("CLBD", "89.10"))));
        Mutate(good, bytes => Refused(bytes));
    }

    [Fact]
    public void A_changed_table_is_read_or_refused_by_name() => Mutate(Encoding.UTF8.GetBytes(Table), bytes => Refused(bytes));

    private static void Mutate(byte[] good, Func<byte[], Failure?> read)
    {
        var chance = new Random(Seed);
        byte[] telling = [0, 0x1A, 0x7F, 0x80, 0xFE, 0xFF, .. "<>&\"';,\n\t-.e90 NaN"u8];
        var (done, before) = (0, GC.GetAllocatedBytesForCurrentThread());
        for (var i = 0; i < Cases; i++)
        {
            var failure = read(ByteChanges.Spoil(good, chance, telling));
            Assert.True(failure is null or StatementRefused { Message.Length: > 0 } or ColumnMissing, $"case {i}: {failure}");
            done += failure is null ? 1 : 0;
        }

        Assert.InRange(done, Cases / 50, Cases - (Cases / 50)); // both ends were seen
        Assert.True((GC.GetAllocatedBytesForCurrentThread() - before) / Cases < 2_000_000);
    }

    /// <summary>What the import would do, without the database.</summary>
    private static Failure? Refused(byte[] bytes)
    {
        var (format, refused) = FileLook.At(bytes);
        if (refused is not null)
            return refused;
        if (format == StatementFormat.Camt)
            return CamtReader.Read(bytes).Failure;
        var table = CsvTable.Read(bytes);
        return table.IsDone ? CsvLines.Read(table.Value, CsvGuess.Of(table.Value), table.Value.Account, "EUR").Failure : table.Failure;
    }

    private static string Repeat(string text, int times) => new StringBuilder(text.Length * times).Insert(0, text, times).ToString();
}
