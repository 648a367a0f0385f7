using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Ledger;

/// <summary>Reading the journal month by month, and closing a month.</summary>
public sealed class LedgerService(ShopDb db, CurrentPerson person, TimeProvider clock, AccountNameService names)
{
    private const int PageSize = 100;

    public async Task<DateOnly> ThisMonthAsync(CancellationToken cancel)
    {
        var today = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(clock.GetUtcNow());
        return FirstOf(today);
    }

    /// <param name="month">Any day of it.</param>
    /// <param name="cancel"></param>
    public async Task<LedgerMonth> MonthAsync(DateOnly month, CancellationToken cancel)
    {
        var (from, until) = (FirstOf(month), FirstOf(month).AddMonths(1));
        var sums = await db.JournalLines.AsNoTracking().Where(line => line.Date < until)
            .GroupBy(line => new { line.Account, line.Currency })
            .Select(group => new
            {
                group.Key.Account,
                group.Key.Currency,
                Before = group.Sum(line => line.Date < from ? line.Amount : 0),
                Debit = group.Sum(line => line.Date >= from && line.Amount > 0 ? line.Amount : 0),
                Credit = group.Sum(line => line.Date >= from && line.Amount < 0 ? -line.Amount : 0),
            }).ToListAsync(cancel);
        var chart = (await names.ListAsync(cancel)).ToDictionary(name => name.Account);
        var closed = await db.ClosedMonths.AsNoTracking().Where(row => row.Month >= from).OrderBy(row => row.Month).FirstOrDefaultAsync(cancel);
        return new LedgerMonth(
            from,
            [.. sums.Select(row => new AccountBalance(row.Account, chart[row.Account].Number, chart[row.Account].Name, row.Currency, row.Before, row.Debit, row.Credit))
                .OrderBy(row => row.Currency, StringComparer.Ordinal).ThenBy(row => row.Number, StringComparer.Ordinal)],
            closed is not null,
            closed?.Month == from ? closed.ClosedAt : null,
            await db.JournalEntries.MinAsync(row => (DateOnly?)row.Date, cancel) is { } first ? FirstOf(first) : null);
    }

    /// <summary>Nothing is written into the month, or any before it, from now on. The database waits for whoever is writing.</summary>
    public async Task<Result> CloseAsync(DateOnly month, CancellationToken cancel)
    {
        month = FirstOf(month);
        if (month >= await ThisMonthAsync(cancel))
            return new MonthNotOver(month);
        await JournalBackfill.EnsureAsync(db, cancel);
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await db.ClosedMonths.AnyAsync(row => row.Month >= month, cancel))
            return new MonthClosedAlready(month);
        db.ClosedMonths.Add(new ClosedMonth { Month = month, ClosedAt = clock.GetUtcNow(), ClosedBy = person.RequiredId });
        if (await db.SaveAsync(cancel, ("pk_closed_months", new MonthClosedAlready(month))) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    /// <summary>Lines in the order they were written.</summary>
    /// <param name="from">First day.</param>
    /// <param name="until">The day after the last.</param>
    /// <param name="account">Null for all.</param>
    /// <param name="after">Entry number of the page before.</param>
    /// <param name="cancel"></param>
    public async Task<LedgerPage> LinesAsync(DateOnly from, DateOnly until, LedgerAccount? account, long? after, CancellationToken cancel)
    {
        var entries = await db.JournalEntries.AsNoTracking()
            .Where(row => row.Date >= from && row.Date < until && row.Number > (after ?? 0))
            .Where(row => account == null || row.Lines.Any(line => line.Account == account))
            .OrderBy(row => row.Number).Select(row => row.Number).Take(PageSize + 1).ToListAsync(cancel);
        var shown = entries.Take(PageSize).ToList();
        var rows = shown.Count == 0 ? [] : await Rows(shown[0], shown[^1], from, until, account).ToListAsync(cancel);
        return new LedgerPage(rows, entries.Count > PageSize ? shown[^1] : null);
    }

    /// <summary>All of them, for a file.</summary>
    public IAsyncEnumerable<LedgerRow> All(DateOnly from, DateOnly until) => Rows(0, long.MaxValue, from, until, null).AsAsyncEnumerable();

    private IQueryable<LedgerRow> Rows(long first, long last, DateOnly from, DateOnly until, LedgerAccount? account) =>
        from entry in db.JournalEntries.AsNoTracking()
        where entry.Number >= first && entry.Number <= last && entry.Date >= @from && entry.Date < until
        from line in entry.Lines
        where account == null || line.Account == account
        join invoice in db.Invoices on entry.InvoiceId equals invoice.Id into invoices
        from invoice in invoices.DefaultIfEmpty()
        join customer in db.Customers on invoice.CustomerId equals customer.Id into customers
        from customer in customers.DefaultIfEmpty()
        join movement in db.StockMovements on entry.MovementId equals movement.Id into movements
        from movement in movements.DefaultIfEmpty()
        join part in db.Parts on movement.PartId equals part.Id into parts
        from part in parts.DefaultIfEmpty()
        join use in db.PartUses on movement.PartUseId equals use.Id into uses
        from use in uses.DefaultIfEmpty()
        join repair in db.Repairs on invoice.RepairId equals repair.Id into repairs
        from repair in repairs.DefaultIfEmpty()
        join fitted in db.Repairs on use.RepairId equals fitted.Id into fittings
        from fitted in fittings.DefaultIfEmpty()
        orderby entry.Number, line.Position
        select new LedgerRow(
            entry.Number, line.Position, entry.Date, entry.Source, line.Account, line.Amount, line.Currency, line.TaxName, line.TaxPercent,
            invoice == null ? "" : invoice.Number!, repair != null ? repair.Number : fitted != null ? fitted.Number : null,
            part == null ? null : part.Id, customer != null ? customer.Name : part != null ? part.Number + " " + part.Name : "");

    private static DateOnly FirstOf(DateOnly day) => new(day.Year, day.Month, 1);
}
