using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Ledger;

/// <summary>The accountant's numbers and names for the book's accounts.</summary>
public sealed class AccountNameService(ShopDb db)
{
    /// <summary>All accounts in the order of the chart, the shop's own numbers where it has set them.</summary>
    public async Task<IReadOnlyList<AccountName>> ListAsync(CancellationToken cancel)
    {
        var own = await db.AccountNames.AsNoTracking().ToDictionaryAsync(row => row.Account, cancel);
        return [.. AccountChart.Usual.Select(usual => own.GetValueOrDefault(usual.Account, usual))];
    }

    /// <summary>What was exported before keeps the numbers it had; the journal itself knows accounts, not numbers.</summary>
    public async Task<Result> SaveAsync(IReadOnlyList<AccountName> typed, CancellationToken cancel)
    {
        foreach (var name in typed)
        {
            (name.Number, name.Name) = (name.Number.Trim(), name.Name.Trim());
            if (name.Name.Length == 0)
                name.Name = AccountChart.Usual.Single(usual => usual.Account == name.Account).Name;
            if (name.Number.Length == 0)
                return new AccountNumberMissing(name.Name);
        }
        if (typed.GroupBy(name => name.Number, StringComparer.OrdinalIgnoreCase).FirstOrDefault(same => same.Count() > 1) is { } twice)
            return new AccountNumberTwice(twice.Key);
        var stored = await db.AccountNames.ToDictionaryAsync(row => row.Account, cancel);
        foreach (var name in typed)
        {
            if (stored.TryGetValue(name.Account, out var row))
                (row.Number, row.Name) = (name.Number, name.Name);
            else
                db.AccountNames.Add(new AccountName { Account = name.Account, Number = name.Number, Name = name.Name });
        }
        return await db.SaveAsync(cancel, ("pk_account_names", new ChangedMeanwhile([])));
    }
}
