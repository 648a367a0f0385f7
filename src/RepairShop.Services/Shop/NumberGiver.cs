using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>Gives out numbers without gaps: the series' row is locked until the caller's transaction ends, and a
/// transaction that fails takes its number back with it.</summary>
public static class NumberGiver
{
    /// <summary>The next number nobody has: it may have been given out under another format, or typed by hand.</summary>
    public static async Task<string> NextFreeAsync(ShopDb db, string kind, string format, DateOnly today, Func<string, Task<bool>> isTaken, CancellationToken cancel)
    {
        string number;
        do
            number = await NextAsync(db, kind, format, today, cancel);
        while (await isTaken(number));
        return number;
    }

    /// <param name="db">With an open transaction.</param>
    /// <param name="kind">repair, invoice, credit-note or part.</param>
    /// <param name="format">The shop's format, see <see cref="NumberFormat"/>.</param>
    /// <param name="today">The workshop's date; its year starts a new series where the format has a year.</param>
    /// <param name="cancel"></param>
    /// <exception cref="InvalidOperationException">No transaction is open.</exception>
    public static async Task<string> NextAsync(ShopDb db, string kind, string format, DateOnly today, CancellationToken cancel)
    {
        if (db.Database.CurrentTransaction is null)
            throw new InvalidOperationException("A number is given only inside the transaction that uses it.");
        var key = NumberFormat.HasYear(format) ? $"{kind}:{today.Year}" : kind;
        var next = (await db.Database.SqlQuery<int>(
            $"""
            insert into number_series (key, last_number) values ({key}, 1)
            on conflict (key) do update set last_number = number_series.last_number + 1
            returning last_number
            """).ToListAsync(cancel)).Single();
        return NumberFormat.Write(format, today.Year, next);
    }
}
