using System.Text;
using RepairShop.Domain.Banking;
using RepairShop.Services.Banking;
using Xunit;
using static RepairShop.Testing.Banking.CamtFiles;

namespace RepairShop.Services.Tests.Banking;

/// <summary>Files shaped after the message structure of ISO 20022, which is told where they are written.</summary>
public sealed class CamtReaderTests
{
    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(8)]
    [InlineData(10)]
    [InlineData(13)]
    public void A_payment_is_read_alike_from_every_version(int version)
    {
        var read = Read(Document(version, Statement(
            Entry("72.60", Details("Łukasz Example", "Thank you  for the shutter", "RF18539007547034", version, endToEnd: "E2E-9"), version: version, reference: "2026112400017"),
            Balance("OPBD", "100.00") + Balance("CLBD", "172.60"))));
        Assert.Equal((Ours, "EUR", "S-11", 100m, 172.60m), (read.Account, read.Currency, read.Number, read.Opening, read.Closing));
        Assert.Empty(read.Warnings);
        Assert.Equal(
            new ReadLine
            {
                Account = Ours,
                BookedOn = new DateOnly(2026, 11, 24),
                ValuedOn = new DateOnly(2026, 11, 24),
                Amount = 72.60m,
                Currency = "EUR",
                IsCredit = true,
                Name = "Łukasz Example",
                Iban = Theirs,
                Text = "Thank you  for the shutter",
                Reference = "RF18539007547034",
                BankReference = "2026112400017",
                EndToEndId = "E2E-9",
            }, Assert.Single(read.Lines));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(8)]
    public void A_batch_becomes_a_line_a_transaction_where_they_come_to_the_entry(int version)
    {
        var details = Details("A", "one", version: version, amount: "10.00", reference: "B-1") + Details("B", "two", version: version, amount: "5.50", reference: "B-2");
        var read = Read(Document(version, Statement(Entry("15.50", details, version: version, reference: "BATCH"))));
        Assert.Equal([("A", 10m, "B-1"), ("B", 5.5m, "B-2")], read.Lines.Select(line => (line.Name, line.Amount, line.BankReference)));
        var unfit = Read(Document(version, Statement(Entry("15.51", details, version: version, reference: "BATCH"))));
        Assert.Equal((15.51m, "", "BATCH", "one two"), unfit.Lines.Select(line => (line.Amount, line.Name, line.BankReference, line.Text)).Single());
        Assert.StartsWith("Entry 1 stands for 2 payments", Assert.Single(unfit.Warnings));
        var silent = Read(Document(version, Statement(Entry("15.50", Details("A", "one", version: version) + Details("B", "two", version: version), version: version))));
        Assert.Equal(15.50m, Assert.Single(silent.Lines).Amount);
    }

    [Fact]
    public void Money_out_reversals_and_what_is_not_booked_yet_are_told_apart()
    {
        var read = Read(Document(8, Statement(
            Entry("5.00", direction: "DBIT") + Entry("6.00", extra: "<RvslInd>true</RvslInd>") + Entry("7.00", status: "PDNG") + Entry("8.00", status: "INFO") + Entry("9.00", currency: "CHF"))));
        Assert.Equal(
            [(false, false, false, "EUR"), (true, true, false, "EUR"), (true, false, true, "EUR"), (true, false, true, "EUR"), (true, false, false, "CHF")],
            read.Lines.Select(line => (line.IsCredit, line.IsReversal, line.IsPending, line.Currency)));
        // The status without a code of its own, as version 02 has it, and one of the bank's own.
        Assert.False(Read(Document(2, Statement(Entry("5.00", version: 2)))).Lines[0].IsPending);
        Assert.True(Read(Document(8, Statement(Entry("5.00").Replace("<Cd>BOOK</Cd>", "<Prtry>ODD</Prtry>", StringComparison.Ordinal)))).Lines[0].IsPending);
    }

    [Fact]
    public void Balances_that_do_not_fit_the_lines_are_told_and_what_is_pending_does_not_count()
    {
        var entries = Entry("50.00") + Entry("20.00", direction: "DBIT") + Entry("7.00", status: "PDNG");
        Assert.Empty(Read(Document(8, Statement(entries, Balance("OPBD", "10.00", "DBIT") + Balance("CLBD", "20.00")))).Warnings);
        Assert.StartsWith($"The balances of {Ours} do not fit its lines", Assert.Single(Read(Document(8, Statement(entries, Balance("PRCD", "10.00") + Balance("CLBD", "20.00")))).Warnings));
        Assert.StartsWith(
            $"The statement of {Ours} says it has 4 entries, but 3",
            Assert.Single(Read(Document(8, Statement("<TxsSummry><TtlNtries><NbOfNtries>4</NbOfNtries></TtlNtries></TxsSummry>" + entries))).Warnings));
    }

    [Fact]
    public void Several_statements_in_one_file_are_read_with_their_accounts()
    {
        var read = Read(Document(2, Statement(Entry("1.00", version: 2), number: "S-1") + Statement(Entry("2.00", version: 2), number: "S-2", account: "AT611904300234573201")));
        Assert.Equal([(Ours, 1m), ("AT611904300234573201", 2m)], read.Lines.Select(line => (line.Account, line.Amount)));
        Assert.Equal(($"{Ours}, AT611904300234573201", "S-1, S-2", (decimal?)null), (read.Account, read.Number, read.Opening));
    }

    [Fact]
    public void A_bank_with_numbers_of_its_own_days_with_a_time_and_a_payer_behind_the_payer_are_read()
    {
        var entry = Entry("3.00", Details("", "").Replace("<Dbtr><Pty><Nm></Nm></Pty></Dbtr>", "<UltmtDbtr><Pty><Nm>Behind</Nm></Pty></UltmtDbtr>", StringComparison.Ordinal)
            .Replace($"<IBAN>{Theirs}</IBAN>", "<Othr><Id>12-34</Id></Othr>", StringComparison.Ordinal))
            .Replace("<BookgDt><Dt>2026-11-24</Dt></BookgDt>", "<BookgDt><DtTm>2026-11-24T23:59:59+01:00</DtTm></BookgDt>", StringComparison.Ordinal);
        var line = Assert.Single(Read(Document(8, Statement(entry).Replace($"<IBAN>{Ours}</IBAN>", "<Othr><Id>90 11</Id></Othr>", StringComparison.Ordinal))).Lines);
        Assert.Equal(("90 11", "Behind", "12-34", new DateOnly(2026, 11, 24)), (line.Account, line.Name, line.Iban, line.BookedOn));
    }

    [Fact]
    public void Other_encodings_are_read_as_they_say()
    {
        var xml = Document(8, Statement(Paid("72.60", "Müller", "für die Kamera")));
        foreach (var encoding in new[] { Encoding.Latin1, Encoding.Unicode, Encoding.BigEndianUnicode })
        {
            var bytes = encoding.GetPreamble().Concat(encoding.GetBytes(xml.Replace("UTF-8", encoding.WebName, StringComparison.Ordinal))).ToArray();
            Assert.Equal("Müller", MoneyBook.Done(CamtReader.Read(bytes)).Lines[0].Name);
        }
    }

    public static TheoryData<string, StatementRefused> Refusals => new()
    {
        { Statement(Entry("1e9")), new AmountUnreadable("Entry 1", "1e9") },
        { Statement(Entry("1.00") + Entry("NaN")), new AmountUnreadable("Entry 2", "NaN") },
        { Statement(Entry("-5.00")), new AmountUnreadable("Entry 1", "-5.00") },
        { Statement(Entry("5,00")), new AmountUnreadable("Entry 1", "5,00") },
        { Statement(Entry("")), new AmountUnreadable("Entry 1", "") },
        { Statement(Entry("100000000000")), new AmountUnreadable("Entry 1", "100000000000") },
        { Statement(Entry("0.00001")), new AmountUnreadable("Entry 1", "0.00001") },
        { Statement(Entry("99999999999999999999999999999999")), new AmountUnreadable("Entry 1", "99999999999999999999999999999999") },
        { Statement(Entry("1.00").Replace(" Ccy=\"EUR\"", "", StringComparison.Ordinal)), new PartMissing("Entry 1", "the currency of the amount (Ccy)") },
        { Statement(Entry("1.00", currency: "EURO")), new CurrencyUnreadable("Entry 1", "EURO") },
        { Statement(Entry("1.00", direction: "BOTH")), new DirectionUnreadable("Entry 1", "BOTH") },
        { Statement(Entry("1.00").Replace("<CdtDbtInd>CRDT</CdtDbtInd>", "", StringComparison.Ordinal)), new PartMissing("Entry 1", "the direction (CdtDbtInd)") },
        { Statement(Entry("1.00", status: "")), new PartMissing("Entry 1", "the status (Sts)") },
        { Statement(Entry("1.00", day: "2026-02-30")), new DateUnreadable("Entry 1", "2026-02-30") },
        { Statement(Entry("1.00", day: "0001-01-01")), new DateUnreadable("Entry 1", "0001-01-01") },
        { Statement(Entry("1.00", day: "")), new PartMissing("Entry 1", "the day of booking (BookgDt)") },
        { Statement("<Ntry/>"), new PartMissing("Entry 1", "the amount (Amt)") },
        { Statement(Entry("2.00", Details("A", "", amount: "1") + Details("B", "", amount: "1x"))), new AmountUnreadable("Entry 1, transaction 2", "1x") },
        { Statement("", Balance("OPBD", "ten")), new AmountUnreadable("Balance OPBD", "ten") },
        { "<Stmt><Id>S-9</Id></Stmt>", new PartMissing("Statement S-9", "the account (Acct/Id)") },
        { "", new NoStatementInside() },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public void What_can_not_be_is_refused_with_its_place(string statements, StatementRefused refused) => Assert.Equal(refused, CamtReader.Read(Bytes(Document(8, statements))).Failure);

    private static ReadStatement Read(string xml) => MoneyBook.Done(CamtReader.Read(Bytes(xml)));
}
