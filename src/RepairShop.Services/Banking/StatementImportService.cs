using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;

namespace RepairShop.Services.Banking;

/// <summary>Where a file that was sent goes on.</summary>
/// <param name="Kept">It is taken in, now or before.</param>
/// <param name="ColumnsKey">It is a table, and its columns are to be named first.</param>
public sealed record StatementSent(StatementKept? Kept, string? ColumnsKey);

/// <param name="Id">Of the statement.</param>
/// <param name="WasHere">The very same file was taken in before.</param>
public sealed record StatementKept(Guid Id, bool WasHere);

/// <summary>A table before its columns are named for good.</summary>
/// <param name="Head">Words of its head.</param>
/// <param name="Top">The first rows as they stand.</param>
/// <param name="Guess">From the last time where there was one.</param>
/// <param name="IsRemembered">It is from the last time.</param>
/// <param name="Account">The IBAN above the table, else the shop's own.</param>
public sealed record ColumnsAsked(
    string Key, IReadOnlyList<string> Head, IReadOnlyList<IReadOnlyList<string>> Top, StatementColumns Guess, bool IsRemembered, string Account);

/// <summary>Takes a bank's files in. A file is taken in once, and a line once however many files bring it.</summary>
public sealed class StatementImportService(ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock)
{
    public const int MostBytes = StatementParts.MostBytes;

    private const int ShownRows = 5;

    // Whoever takes a file in does so alone, so that lines in two files at once are known in the second.
    private const long ImportLock = 0x42_41_4E_4B;

    /// <summary>Reads the file as what it is; a table waits for its columns.</summary>
    public async Task<Result<StatementSent>> SendAsync(string fileName, ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        var (format, refused) = FileLook.At(bytes.Span);
        if (refused is not null)
            return refused;
        if (format == StatementFormat.Csv)
        {
            var table = CsvTable.Read(bytes);
            if (!table.IsDone)
                return table.Failure;
            var key = await files.PutAsync(bytes, cancel);
            return await db.BankStatements.Where(row => row.FileHash == key).Select(row => (Guid?)row.Id).SingleOrDefaultAsync(cancel) is { } here
                ? new StatementSent(new StatementKept(here, true), null)
                : new StatementSent(null, key);
        }

        var read = CamtReader.Read(bytes);
        if (!read.IsDone)
            return read.Failure;
        var kept = await KeepAsync(StatementFormat.Camt, fileName, await files.PutAsync(bytes, cancel), read.Value, cancel);
        return kept.IsDone ? new StatementSent(kept.Value, null) : kept.Failure;
    }

    /// <summary>What a table sent before looks like, with the columns of the last time or a guess.</summary>
    public async Task<Result<ColumnsAsked>> ColumnsAsync(string key, CancellationToken cancel)
    {
        var table = await TableAsync(key, cancel);
        if (!table.IsDone)
            return table.Failure;
        var id = LayoutOf(table.Value);
        var known = await db.BankLayouts.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel);
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        return new ColumnsAsked(
            key, table.Value.Head, [.. table.Value.Rows.Take(ShownRows).Select(row => row.Cells)],
            known is null ? CsvGuess.Of(table.Value) : JsonSerializer.Deserialize<StatementColumns>(known.Columns) ?? new StatementColumns(), known is not null,
            table.Value.Account.Length > 0 ? table.Value.Account : Iban.Plain(shop.Iban));
    }

    /// <summary>Takes a table in with its columns named, and remembers them for the next with the same head.</summary>
    public async Task<Result<StatementKept>> TakeAsync(string key, string fileName, StatementColumns columns, string account, CancellationToken cancel)
    {
        var table = await TableAsync(key, cancel);
        if (!table.IsDone)
            return table.Failure;
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var read = CsvLines.Read(table.Value, columns, StatementParts.Account(account), shop.Currency);
        if (!read.IsDone)
            return read.Failure;
        return await KeepAsync(StatementFormat.Csv, fileName, key, read.Value, cancel, new BankLayout
        {
            Id = LayoutOf(table.Value),
            Columns = JsonSerializer.Serialize(columns),
            SavedAt = clock.GetUtcNow(),
        });
    }

    private async Task<Result<CsvTable>> TableAsync(string key, CancellationToken cancel)
    {
        if (key.Length != 64 || !key.All(char.IsAsciiHexDigitLower) || !files.Has(key))
            return new StatementFileGone();
        var bytes = await files.ReadAsync(key, cancel);
        return FileLook.At(bytes) is { Format: StatementFormat.Csv } ? CsvTable.Read(bytes) : new StatementFileGone();
    }

    private async Task<Result<StatementKept>> KeepAsync(
        StatementFormat format, string fileName, string hash, ReadStatement read, CancellationToken cancel, BankLayout? layout = null)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        await db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock({ImportLock})", cancel);
        if (await db.BankStatements.Where(row => row.FileHash == hash).Select(row => (Guid?)row.Id).SingleOrDefaultAsync(cancel) is { } before)
            return new StatementKept(before, true);
        var currency = await db.Shop.AsNoTracking().Select(row => row.Currency).SingleAsync(cancel);
        var identities = LineIdentity.Of(read.Lines);
        var known = (await db.BankLines.Where(row => identities.Contains(row.Identity)).Select(row => row.Identity).ToListAsync(cancel)).ToHashSet(StringComparer.Ordinal);
        var statement = Statement(format, fileName, hash, read);
        var lines = read.Lines.Select((line, i) => Line(statement.Id, i + 1, line, identities[i], currency)).Where(line => !known.Contains(line.Identity)).ToList();
        (statement.LineCount, statement.KnownCount) = (lines.Count, read.Lines.Count - lines.Count);
        db.BankStatements.Add(statement);
        db.BankLines.AddRange(lines);
        if (layout is not null)
            await RememberAsync(layout, cancel);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return new StatementKept(statement.Id, false);
    }

    private async Task RememberAsync(BankLayout layout, CancellationToken cancel)
    {
        if (await db.BankLayouts.SingleOrDefaultAsync(row => row.Id == layout.Id, cancel) is not { } known)
            db.BankLayouts.Add(layout);
        else
            (known.Columns, known.SavedAt) = (layout.Columns, layout.SavedAt);
    }

    private BankStatement Statement(StatementFormat format, string fileName, string hash, ReadStatement read) => new()
    {
        Format = format,
        FileName = StatementParts.Text(fileName, 200),
        FileHash = hash,
        Account = read.Account,
        Number = read.Number,
        Currency = read.Currency,
        From = read.Lines.Count == 0 ? null : read.Lines.Min(line => line.BookedOn),
        Until = read.Lines.Count == 0 ? null : read.Lines.Max(line => line.BookedOn),
        Opening = read.Opening,
        Closing = read.Closing,
        Warnings = [.. read.Warnings],
        ImportedAt = clock.GetUtcNow(),
        ImportedBy = person.RequiredId,
    };

    private static BankLine Line(Guid statement, int position, ReadLine line, string identity, string currency) => new()
    {
        StatementId = statement,
        Position = position,
        Account = line.Account,
        BookedOn = line.BookedOn,
        ValuedOn = line.ValuedOn,
        Amount = line.Amount,
        Currency = line.Currency,
        IsCredit = line.IsCredit,
        Bar = line switch
        {
            { IsPending: true } => BankLineBar.NotBookedYet,
            { IsReversal: true } => BankLineBar.Reversal,
            { Amount: 0 } => BankLineBar.Nothing,
            { IsCredit: false } => BankLineBar.MoneyOut,
            _ => line.Currency == currency ? BankLineBar.None : BankLineBar.OtherCurrency,
        },
        Name = line.Name,
        Iban = line.Iban,
        Text = line.Text,
        Reference = line.Reference,
        BankReference = line.BankReference,
        EndToEndId = line.EndToEndId,
        Identity = identity,
    };

    private static string LayoutOf(CsvTable table) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{table.Delimiter}\n{string.Join('\n', table.Head)}")));
}
