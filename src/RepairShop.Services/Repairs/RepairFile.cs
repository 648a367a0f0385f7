using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Repairs;

/// <summary>A repair with what every paper and letter about it names.</summary>
internal sealed record RepairFile(Repair Repair, Customer Customer, Camera Camera, ShopSettings Shop)
{
    public string CameraName => $"{Camera.Maker} {Camera.Model}".Trim();

    /// <summary>Reads without tracking: for showing. One question instead of four, since three sections of a sheet ask it.</summary>
    public static async Task<RepairFile?> ReadAsync(ShopDb db, string number, CancellationToken cancel)
    {
        var row = await (
            from repair in db.Repairs.AsNoTracking()
            join customer in db.Customers on repair.CustomerId equals customer.Id
            join camera in db.Cameras on repair.CameraId equals camera.Id
            from shop in db.Shop
            where repair.Number == number
            select new { repair, customer, camera, shop }).SingleOrDefaultAsync(cancel);
        return row is null ? null : new RepairFile(row.repair, row.customer, row.camera, row.shop);
    }

    /// <summary>Locks the repair's row until the transaction ends: everything about its money is decided one after the other.</summary>
    public static async Task<RepairFile?> LockAsync(ShopDb db, string number, CancellationToken cancel)
    {
        var repair = (await db.Repairs.FromSql($"select r.*, r.xmin from repairs r where r.number = {number} for update").ToListAsync(cancel))
            .SingleOrDefault();
        return repair is null ? null : await WithAsync(db, repair, cancel);
    }

    private static async Task<RepairFile> WithAsync(ShopDb db, Repair repair, CancellationToken cancel) => new(
        repair,
        await db.Customers.AsNoTracking().SingleAsync(row => row.Id == repair.CustomerId, cancel),
        await db.Cameras.AsNoTracking().SingleAsync(row => row.Id == repair.CameraId, cancel),
        await db.Shop.AsNoTracking().SingleAsync(cancel));
}
