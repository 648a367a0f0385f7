using System.Text;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Services.Banking;
using Xunit;

namespace RepairShop.Services.Tests.Banking;

/// <summary>Tables as banks of several countries shape them (common practice); names and numbers are invented, IBANs published examples.</summary>
public sealed class CsvReaderTests
{
    private const string English = """
        Date,Description,Amount,Payer,Payer account
        2026-11-24,Invoice I-2026-0001,"1,072.60",Łukasz Example,GB82WEST12345698765432
        2026-11-25,Charges,-4.50,,
        """;

    private const string German = """
        Konto;DE89 3704 0044 0532 0130 00
        Zeitraum;01.11.2026 - 24.11.2026

        Buchungstag;Wertstellung;Auftraggeber / Begünstigter;IBAN;Verwendungszweck;Betrag;Währung
        24.11.2026;25.11.2026;Jürgen Groß;AT61 1904 3002 3457 3201;"RF18 5390 0754 7034; danke";1.072,60;EUR
        23.11.26;23.11.2026;Hafen Holz;;Miete;-1.000,00;EUR
        """;

    private const string Dutch = "Datum;Naam;Tegenrekening;Af Bij;Bedrag;Mededeling\n20261124;A. Voorbeeld;NL20INGB0001234567;Bij;72,60;I 2026 0001\n20261124;Huur;;Af;500,00;\n";

    private const string TwoColumns = "Posted\tDetails\tMoney out\tMoney in\n24/11/2026\tI-2026-0001\t\t72.60\n24/11/2026\tRent\t500.00\t\n";

    [Fact]
    public void An_English_table_is_guessed_and_read()
    {
        var (columns, read) = Guessed(English);
        Assert.Equal((0, 2, 3, 4, 1, false), (columns.Date, columns.Amount, columns.Name, columns.Iban, columns.Text, columns.DecimalComma));
        Assert.Equal([(true, 1072.60m, "Łukasz Example", "GB82WEST12345698765432", "Invoice I-2026-0001"), (false, 4.50m, "", "", "Charges")], Short(read));
        Assert.Equal([new DateOnly(2026, 11, 24), new DateOnly(2026, 11, 25)], read.Lines.Select(line => line.BookedOn));
    }

    [Theory]
    [InlineData("utf-8")]
    [InlineData("utf-8-mark")]
    [InlineData("windows-1252")]
    [InlineData("utf-16")]
    public void A_German_table_is_read_in_any_encoding_with_lines_above_it(string encoding)
    {
        var bytes = encoding switch
        {
            "utf-8" => Encoding.UTF8.GetBytes(German),
            "utf-8-mark" => [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(German)],
            "utf-16" => [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(German)],
            _ => CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetBytes(German),
        };
        var table = MoneyBook.Done(CsvTable.Read(bytes));
        var columns = CsvGuess.Of(table);
        Assert.Equal("DE89370400440532013000", table.Account);
        Assert.True(columns is { Date: 0, Valued: 1, Name: 2, Iban: 3, Text: 4, Amount: 5, Currency: 6, DecimalComma: true });
        var read = MoneyBook.Done(CsvLines.Read(table, columns, table.Account, "EUR"));
        Assert.Equal([(true, 1072.60m, "Jürgen Groß", "AT611904300234573201", "RF18 5390 0754 7034; danke"), (false, 1000m, "Hafen Holz", "", "Miete")], Short(read));
        Assert.Equal(new DateOnly(2026, 11, 23), read.Lines[1].BookedOn);
    }

    [Fact]
    public void A_column_that_says_the_direction_and_two_columns_of_money_are_understood()
    {
        var (dutch, read) = Guessed(Dutch);
        Assert.Equal(3, dutch.Direction);
        Assert.Equal([(true, 72.60m, "A. Voorbeeld", "NL20INGB0001234567", "I 2026 0001"), (false, 500m, "Huur", "", "")], Short(read));
        var (two, other) = Guessed(TwoColumns);
        Assert.Equal((3, 2, (int?)null), (two.MoneyIn, two.MoneyOut, two.Amount));
        Assert.Equal([(true, 72.60m), (false, 500m)], other.Lines.Select(line => (line.IsCredit, line.Amount)));
    }

    [Fact]
    public void A_table_without_a_head_gets_columns_by_number_and_a_day_after_the_twelfth_in_second_place_means_the_month_comes_first()
    {
        var table = MoneyBook.Done(CsvTable.Read(Encoding.UTF8.GetBytes("11/24/2026,12.00,Ada\n01/02/2026,3.50,Bea\n")));
        Assert.Equal(["Column 1", "Column 2", "Column 3"], table.Head);
        var columns = CsvGuess.Of(table);
        Assert.True(columns.MonthFirst);
        Assert.Equal([new DateOnly(2026, 11, 24), new DateOnly(2026, 1, 2)], MoneyBook.Done(CsvLines.Read(table, columns, "", "EUR")).Lines.Select(line => line.BookedOn));
    }

    [Fact]
    public void What_stands_below_the_movements_is_left_out_and_told()
    {
        var (_, read) = Guessed(English + "\nClosing balance,,\"2,000.00\",,\n");
        Assert.Equal(2, read.Lines.Count);
        Assert.Equal("From line 4 on no line holds a day; 1 line is left out.", Assert.Single(read.Warnings));
    }

    [Theory]
    [InlineData("1.234,56", ',', "1234.56")]
    [InlineData("1,234.56-", '.', "-1234.56")]
    [InlineData("+12", '.', "12")]
    [InlineData("−4,50", ',', "-4.5")]
    [InlineData("1 234,5 EUR", ',', "1234.5")]
    [InlineData("€ 1'234.50", '.', "1234.5")]
    [InlineData("-€5.00", '.', "-5")]
    [InlineData("12,345", '.', "12345")]
    [InlineData("12,34", '.', null)]
    [InlineData("1.2.3", '.', null)]
    [InlineData("1e9", '.', null)]
    [InlineData("NaN", '.', null)]
    [InlineData("Infinity", '.', null)]
    [InlineData("0x10", '.', null)]
    [InlineData("--5", '.', null)]
    [InlineData("", '.', null)]
    [InlineData("1,00000", ',', "1")]
    [InlineData("0.00001", '.', null)]
    [InlineData("٣", '.', null)]
    public void An_amount_is_what_it_says_or_nothing(string cell, char decimals, string? amount) =>
        Assert.Equal(amount is null ? null : decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture), CsvValues.Amount(cell, decimals));

    [Fact]
    public void Each_refusal_names_its_line()
    {
        Assert.Equal(new RowDiffers(4, 1, 5), Refused(English + "\nSubtotal\n2026-11-26,x,1.00,,\n"));
        Assert.Equal(new DateUnreadable("Line 4", "2026-02-30"), Refused(English + "\n2026-02-30,x,1.00,,\n2026-11-26,x,1.00,,\n"));
        Assert.Equal(new AmountUnreadable("Line 4", "1e9"), Refused(English + "\n2026-11-26,x,1e9,,\n"));
        Assert.Equal(new PartMissing("Line 4", "the amount"), Refused(English + "\n2026-11-26,x,,,\n"));
        Assert.Equal(new QuoteUnclosed(4), Refused(English + "\n2026-11-26,\"x,1.00,,\n2026-11-27,y,1.00,,\n"));
        Assert.Equal(new DirectionUnreadable("Line 4", "?"), Refused(Dutch + "20261124;A;;?;1,00;\n"));
        Assert.Equal(new CurrencyUnreadable("Line 7", "euro"), Refused(German + "\n24.11.2026;;a;;b;1,00;euro\n"));
        Assert.IsType<NoTable>(Refused("Dear customer,\nyour statement is attached.\n"));
        Assert.Equal(new RowTooLong(2), Refused("Date,Amount\n2026-11-24," + new string('9', 30_000) + "\n"));
        Assert.Equal(new TooManyStatementColumns(1, 61), Refused("2026-11-24,1.00" + string.Concat(Enumerable.Repeat(",a", 59)) + "\n"));
        Assert.Equal(new TooManyEntries(20_000), Refused("Date,Amount\n" + string.Concat(Enumerable.Repeat("2026-11-24,1.00\n", 20_001))));
    }

    [Fact]
    public void Columns_that_are_not_there_or_not_named_are_refused_at_their_field()
    {
        var table = MoneyBook.Done(CsvTable.Read(Encoding.UTF8.GetBytes(English)));
        Assert.Equal(new ColumnMissing("Date", "The day"), CsvLines.Read(table, new StatementColumns { Amount = 2 }, "", "EUR").Failure);
        Assert.Equal(new ColumnMissing("Amount", "The amount"), CsvLines.Read(table, new StatementColumns { Date = 0, MoneyOut = 2 }, "", "EUR").Failure);
        Assert.Equal(new ColumnNotThere("Text"), CsvLines.Read(table, new StatementColumns { Date = 0, Amount = 2, Text = 5 }, "", "EUR").Failure);
        Assert.Equal(new ColumnNotThere("Date"), CsvLines.Read(table, new StatementColumns { Date = -1, Amount = 2 }, "", "EUR").Failure);
    }

    private static (StatementColumns Columns, ReadStatement Read) Guessed(string text)
    {
        var table = MoneyBook.Done(CsvTable.Read(Encoding.UTF8.GetBytes(text)));
        var columns = CsvGuess.Of(table);
        return (columns, MoneyBook.Done(CsvLines.Read(table, columns, table.Account, "EUR")));
    }

    private static Failure? Refused(string text)
    {
        var table = CsvTable.Read(Encoding.UTF8.GetBytes(text));
        return table.IsDone ? CsvLines.Read(table.Value, CsvGuess.Of(table.Value), "", "EUR").Failure : table.Failure;
    }

    private static IEnumerable<(bool, decimal, string, string, string)> Short(ReadStatement read) =>
        read.Lines.Select(line => (line.IsCredit, line.Amount, line.Name, line.Iban, line.Text));
}
