using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Services.Accounts;
using RepairShop.Services.Ledger;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Database;

/// <summary>What happens to the database before the first request: brought to this program's shape, filled with what a new book starts with.</summary>
public static class ShopPreparation
{
    public static async Task PrepareAsync(IServiceProvider services, CancellationToken ct = default)
    {
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        // Looked at first: migrating builds the mapper's model a second time to compare, which every start would wait for.
        if ((await db.Database.GetPendingMigrationsAsync(ct)).Any())
            await db.Database.MigrateAsync(ct);
        await ShopDefaults.EnsureAsync(db, ct);
        await JournalBackfill.EnsureAsync(db, ct);
        await scope.ServiceProvider.GetRequiredService<AccountService>().EnsureRoles();
    }
}
