using System.Globalization;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Banking;

/// <summary>A bank's table read with columns that somebody has named.</summary>
public static class CsvLines
{
    private static readonly string[] InWords = ["C", "CR", "CRDT", "CREDIT", "H", "HABEN", "BIJ", "IN", "+", "K", "GUTSCHRIFT", "KREDIT"];
    private static readonly string[] OutWords = ["D", "DR", "DBIT", "DEBIT", "S", "SOLL", "AF", "OUT", "-", "−", "LASTSCHRIFT", "BELASTUNG"];

    /// <param name="table"></param>
    /// <param name="columns"></param>
    /// <param name="account">Whose statement it is.</param>
    /// <param name="currency">Where the table has no column of it.</param>
    public static Result<ReadStatement> Read(CsvTable table, StatementColumns columns, string account, string currency)
    {
        if (Missing(table, columns) is { } missing)
            return missing;
        var rows = table.Rows.ToList();
        // What stands below the movements, such as a closing balance, holds no day in the column of days.
        var footer = 0;
        while (rows.Count > 0 && CsvValues.Day(Cell(rows[^1], columns.Date), columns.MonthFirst) is null && !CsvValues.MayBeDay(Cell(rows[^1], columns.Date)))
        {
            rows.RemoveAt(rows.Count - 1);
            footer++;
        }

        try
        {
            var lines = rows.Where(row => row.Cells.Any(cell => cell.Length > 0)).Select(row => Line(row, table, columns, account, currency)).ToList();
            if (lines.Count == 0)
                return new DateUnreadable($"Line {Plain(table.Rows[0].Line)}", Cell(table.Rows[0], columns.Date));
            var below = rows.Count < table.Rows.Count ? table.Rows[rows.Count].Line : 0;
            string[] warnings = footer == 0 ? [] : [$"From line {Plain(below)} on no line holds a day; {Plain(footer)} {(footer == 1 ? "line is" : "lines are")} left out."];
            return new ReadStatement(account, lines.Select(line => line.Currency).Distinct().Count() == 1 ? lines[0].Currency : "", "", null, null, lines, warnings);
        }
        catch (RefusedException no)
        {
            return no.Refused;
        }
    }

    /// <summary>True for money in; null where the cell says neither.</summary>
    public static bool? Direction(string cell)
    {
        var word = cell.Trim('.', ' ').ToUpperInvariant();
        return InWords.Contains(word) ? true : OutWords.Contains(word) ? false : null;
    }

    private static ReadLine Line(CsvRow row, CsvTable table, StatementColumns columns, string account, string currency)
    {
        var place = $"Line {Plain(row.Line)}";
        var width = row.Cells.Length;
        while (width > table.Head.Length && row.Cells[width - 1].Length == 0)
            width--;
        if (width > table.Head.Length || row.Cells.Length < table.Head.Length - 1)
            throw new RefusedException(new RowDiffers(row.Line, width, table.Head.Length));
        var amount = Amount(row, columns, place);
        var code = Cell(row, columns.Currency) is { Length: > 0 } own ? own : currency;
        if (code.Length != 3 || !code.All(char.IsAsciiLetterUpper))
            throw new RefusedException(new CurrencyUnreadable(place, code));
        return new ReadLine
        {
            Account = account,
            BookedOn = Day(Cell(row, columns.Date), columns, place),
            ValuedOn = Cell(row, columns.Valued) is { Length: > 0 } valued ? Day(valued, columns, place) : null,
            Amount = Math.Abs(amount),
            Currency = code,
            IsCredit = amount >= 0,
            Name = StatementParts.Text(Cell(row, columns.Name), BankLine.LongestName),
            Iban = StatementParts.Account(Cell(row, columns.Iban)),
            Text = StatementParts.Text(Cell(row, columns.Text), BankLine.LongestText),
            Reference = StatementParts.Text(Cell(row, columns.Reference), BankLine.LongestReference),
            BankReference = StatementParts.Text(Cell(row, columns.BankReference), BankLine.LongestReference),
        };
    }

    /// <summary>Below zero for money out.</summary>
    private static decimal Amount(CsvRow row, StatementColumns columns, string place)
    {
        decimal Read(string cell) => CsvValues.Amount(cell, columns.DecimalComma ? ',' : '.') ?? throw new RefusedException(new AmountUnreadable(place, cell));
        if (columns.Amount is null)
        {
            var (came, went) = (Cell(row, columns.MoneyIn), Cell(row, columns.MoneyOut));
            if (came.Length == 0 && went.Length == 0)
                throw new RefusedException(new PartMissing(place, "the amount"));
            return (came.Length > 0 ? Read(came) : 0) - (went.Length > 0 ? Math.Abs(Read(went)) : 0);
        }

        if (Cell(row, columns.Amount) is { Length: 0 })
            throw new RefusedException(new PartMissing(place, "the amount"));
        var amount = Read(Cell(row, columns.Amount));
        if (columns.Direction is null)
            return amount;
        return Direction(Cell(row, columns.Direction)) is { } isCredit
            ? isCredit ? Math.Abs(amount) : -Math.Abs(amount)
            : throw new RefusedException(new DirectionUnreadable(place, Cell(row, columns.Direction)));
    }

    private static DateOnly Day(string cell, StatementColumns columns, string place) =>
        CsvValues.Day(cell, columns.MonthFirst) ?? throw new RefusedException(new DateUnreadable(place, cell));

    private static Failure? Missing(CsvTable table, StatementColumns columns)
    {
        foreach (var (field, column) in Named(columns))
        {
            if (column is { } at && (at < 0 || at >= table.Head.Length))
                return new ColumnNotThere(field);
        }

        if (columns.Date is null)
            return new ColumnMissing(nameof(columns.Date), "The day");
        return columns.Amount is null && columns.MoneyIn is null ? new ColumnMissing(nameof(columns.Amount), "The amount") : null;
    }

    private static (string, int?)[] Named(StatementColumns columns) =>
    [
        (nameof(columns.Date), columns.Date), (nameof(columns.Valued), columns.Valued), (nameof(columns.Amount), columns.Amount),
        (nameof(columns.MoneyIn), columns.MoneyIn), (nameof(columns.MoneyOut), columns.MoneyOut), (nameof(columns.Direction), columns.Direction),
        (nameof(columns.Currency), columns.Currency), (nameof(columns.Name), columns.Name), (nameof(columns.Iban), columns.Iban),
        (nameof(columns.Text), columns.Text), (nameof(columns.Reference), columns.Reference), (nameof(columns.BankReference), columns.BankReference),
    ];

    private static string Cell(CsvRow row, int? column) => column is { } at && at < row.Cells.Length ? row.Cells[at] : "";

    private static string Plain(long number) => number.ToString(CultureInfo.InvariantCulture);
}
