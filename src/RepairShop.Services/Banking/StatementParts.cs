using System.Globalization;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Banking;

/// <summary>A refusal on its way out of a reader; it never leaves the readers.</summary>
internal sealed class RefusedException(StatementRefused refused) : Exception
{
    public StatementRefused Refused => refused;
}

/// <summary>What both readers ask of a value, whoever wrote it.</summary>
internal static class StatementParts
{
    public const int MostBytes = 10_000_000, MostLines = 20_000;

    /// <summary>More money than any account of a workshop, and what the database's columns hold with room.</summary>
    private const decimal MostMoney = 100_000_000_000m;

    private const int Digits = 4;

    /// <summary>Digits with a point: no sign, no exponent, no words.</summary>
    public static decimal? Amount(string text)
    {
        if (!decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var amount) || amount >= MostMoney)
            return null;
        return decimal.Round(amount, Digits) == amount ? amount : null;
    }

    public static bool IsUsual(DateOnly day) => day.Year is >= 1970 and < 2200;

    /// <summary>One line, without what breaks one, no longer than its column.</summary>
    public static string Text(string? text, int longest)
    {
        var clean = TypedText.OneLine(text);
        if (clean.Length <= longest)
            return clean;
        var end = longest - 1;
        return string.Concat(clean.AsSpan(0, char.IsHighSurrogate(clean[end - 1]) ? end - 1 : end), "…");
    }

    /// <summary>As it is stored where it is an IBAN; else the bank's own number.</summary>
    public static string Account(string? text) => Text(Iban.IsValid(text ?? "") ? Iban.Plain(text!) : text, BankLine.LongestAccount);

    /// <summary>Whether what it began with and what moved come to what it ended with; null where they do.</summary>
    public static string? BalanceWarning(string account, string currency, decimal? opening, decimal? closing, IEnumerable<ReadLine> booked)
    {
        if (opening is not { } from || closing is not { } to)
            return null;
        var moved = booked.Where(line => !line.IsPending).Sum(line => line.IsCredit ? line.Amount : -line.Amount);
        if (from + moved == to)
            return null;
        var code = Currency.IsKnown(currency) ? currency : "EUR";
        return $"The balances of {account} do not fit its lines: it begins with {Domain.Invoices.Amount.Text(from, code)}, {Domain.Invoices.Amount.Text(moved, code)} moved, and it ends with {Domain.Invoices.Amount.Text(to, code)}. A line may be missing: ask the bank for the days again.";
    }
}
