using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Database;

namespace RepairShop.Web.Tests.Work;

/// <summary>A camera on the bench, without the way there.</summary>
internal static class OneRepair
{
    public static Task<string> BookedIn(ShopApp app, string number = "2026-0001", params string[] marks) => app.With<ShopDb, string>(async db =>
    {
        var now = DateTimeOffset.UtcNow;
        var customer = new Customer { Name = "A. Customer", CreatedAt = now };
        var camera = new Camera
        {
            OwnerId = customer.Id,
            Maker = "Example Works",
            Model = "Model 1",
            ShutterKind = ShutterKind.BetweenLens,
            MarkedSpeeds = marks,
            CreatedAt = now,
        };
        db.AddRange(customer, camera, new Repair
        {
            Number = number,
            CustomerId = customer.Id,
            CameraId = camera.Id,
            BookedAt = now.AddDays(-30),
            Complaint = "Slow speeds drag",
        });
        await db.SaveChangesAsync();
        return number;
    });
}
