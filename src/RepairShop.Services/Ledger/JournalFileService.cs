using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using RepairShop.Domain.Invoices;

namespace RepairShop.Services.Ledger;

/// <summary>The journal as a file for any accountant: comma-separated (RFC 4180) with a header, UTF-8, days as ISO 8601, a point
/// before decimals, one line for each line of the journal.</summary>
public sealed class JournalFileService(LedgerService ledger, AccountNameService names)
{
    // The library's own guard would put an apostrophe before the minus of an amount too.
    public static CsvConfiguration Format { get; } = new(CultureInfo.InvariantCulture) { InjectionOptions = InjectionOptions.None, NewLine = "\r\n" };

    private static readonly string[] Header =
        ["entry", "line", "date", "source", "account", "account name", "debit", "credit", "currency", "tax", "tax percent", "paper", "repair", "text"];

    /// <param name="from">First day.</param>
    /// <param name="until">The day after the last.</param>
    /// <param name="cancel"></param>
    public async Task<byte[]> WriteAsync(DateOnly from, DateOnly until, CancellationToken cancel)
    {
        var chart = (await names.ListAsync(cancel)).ToDictionary(name => name.Account);
        using var file = new MemoryStream();
        await using (var writer = new StreamWriter(file, new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: true)))
        await using (var csv = new CsvWriter(writer, Format))
        {
            foreach (var name in Header)
                csv.WriteField(name);
            await csv.NextRecordAsync();
            await foreach (var row in ledger.All(from, until).WithCancellation(cancel))
            {
                Write(csv, row, chart[row.Account].Number, chart[row.Account].Name);
                await csv.NextRecordAsync();
            }
        }
        return file.ToArray();
    }

    private static void Write(CsvWriter csv, LedgerRow row, string number, string name)
    {
        csv.WriteField(row.Entry);
        csv.WriteField(row.Position);
        csv.WriteField(row.Date.ToString("O", CultureInfo.InvariantCulture));
        csv.WriteField(row.Source.ToString());
        csv.WriteField(NoFormula(number));
        csv.WriteField(NoFormula(name));
        csv.WriteField(row.Amount > 0 ? Plain(row.Amount, row.Currency) : "");
        csv.WriteField(row.Amount < 0 ? Plain(-row.Amount, row.Currency) : "");
        csv.WriteField(row.Currency);
        csv.WriteField(NoFormula(row.TaxName));
        csv.WriteField(row.TaxName.Length > 0 ? row.TaxPercent.ToString("0.####", CultureInfo.InvariantCulture) : "");
        csv.WriteField(NoFormula(row.Paper));
        csv.WriteField(NoFormula(row.Repair));
        csv.WriteField(NoFormula(row.Text));
    }

    /// <summary>A text a spreadsheet would take for a formula, with an apostrophe before it.</summary>
    internal static string NoFormula(string? text) => text is [('=' or '+' or '-' or '@' or '\t' or '\r'), ..] ? "'" + text : text ?? "";

    private static string Plain(decimal amount, string currency) =>
        amount.ToString("F" + Amount.Digits(currency).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
