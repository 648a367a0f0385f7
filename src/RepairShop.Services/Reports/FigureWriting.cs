using System.Globalization;
using CsvHelper;
using RepairShop.Domain.Invoices;
using RepairShop.Services.Ledger;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reports;

/// <summary>Figures as text for people, and as a file for a spreadsheet.</summary>
public static class FigureWriting
{
    /// <summary>As the reader's culture writes it; empty for none.</summary>
    public static string Text(decimal? value, FigureUnit unit, string currency)
    {
        var culture = CultureInfo.CurrentCulture;
        return value is not { } number ? "" : unit switch
        {
            FigureUnit.Money => number.ToString("C", ShopCulture.Of(culture.Name.Length > 0 ? culture.Name : "en-GB", currency)),
            FigureUnit.Hours => number.ToString("0.0", culture) + " h",
            FigureUnit.Days => number.ToString("0.#", culture) + (number == 1 ? " day" : " days"),
            FigureUnit.Percent => number.ToString("0", culture) + " %",
            _ => number.ToString("0", culture),
        };
    }

    /// <summary>Comma-separated (RFC 4180), UTF-8, a point before decimals.</summary>
    public static async Task<byte[]> FileAsync(Figure figure, string currency)
    {
        using var file = new MemoryStream();
        await using (var writer = new StreamWriter(file, new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: true)))
        await using (var csv = new CsvWriter(writer, JournalFileService.Format))
        {
            csv.WriteField("key");
            csv.WriteField(figure.RowName);
            foreach (var column in figure.Columns)
                csv.WriteField($"{column.Name} ({(column.Unit == FigureUnit.Money ? currency : column.Unit.ToString().ToLowerInvariant())})");
            await csv.NextRecordAsync();
            foreach (var row in figure.Rows)
            {
                csv.WriteField(JournalFileService.NoFormula(row.Key));
                csv.WriteField(JournalFileService.NoFormula(row.Label));
                for (var column = 0; column < figure.Columns.Count; column++)
                    csv.WriteField(row.Values[column] is { } value ? Plain(value, figure.Columns[column].Unit, currency) : "");
                await csv.NextRecordAsync();
            }
        }
        return file.ToArray();
    }

    private static string Plain(decimal value, FigureUnit unit, string currency) => unit == FigureUnit.Money
        ? value.ToString("F" + Amount.Digits(currency).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
        : value.ToString("0.####", CultureInfo.InvariantCulture);
}
