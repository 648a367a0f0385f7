using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Services.Database;

namespace RepairShop.Services.Invoices;

internal static class InvoiceLock
{
    /// <summary>The invoice without its lines, held to the end of the transaction.</summary>
    public static async Task<Invoice?> TakeAsync(ShopDb db, Guid id, CancellationToken cancel) =>
        (await db.Invoices.FromSql($"select i.*, i.xmin from invoices i where i.id = {id} for update").AsNoTracking().ToListAsync(cancel)).SingleOrDefault();
}
