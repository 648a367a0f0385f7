using Microsoft.Extensions.DependencyInjection;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Services;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Testing;

/// <summary>A workshop's book on a database of its own, with its services, a clock a test can set, and two people.</summary>
public sealed class Workshop : IAsyncDisposable
{
    private readonly TestDatabase database;
    private readonly string folder = TestFolders.Create("shop");
    private readonly ServiceProvider services;
    private int repairs;

    private Workshop(TestDatabase database)
    {
        this.database = database;
        var collection = new ServiceCollection();
        collection.AddLogging();
        collection.AddSingleton<TimeProvider>(Clock);
        collection.AddShopServices(database.ConnectionString, folder);
        services = collection.BuildServiceProvider();
    }

    /// <summary>A Tuesday morning in London, in winter time.</summary>
    public SetClock Clock { get; } = new(new DateTimeOffset(2026, 11, 24, 9, 0, 0, TimeSpan.Zero));

    public Guid Mender { get; } = Guid.CreateVersion7();

    public Guid Helper { get; } = Guid.CreateVersion7();

    public static CancellationToken Cancel => Xunit.TestContext.Current.CancellationToken;

    public static async Task<Workshop> OpenAsync(PostgresServer server)
    {
        var workshop = new Workshop(await server.CreateDatabaseAsync(Cancel));
        await workshop.Db(async db =>
        {
            await ShopDefaults.EnsureAsync(db, Cancel);
            foreach (var (id, name) in new[] { (workshop.Mender, "Mender"), (workshop.Helper, "Helper") })
                db.Users.Add(new Account { Id = id, DisplayName = name, UserName = name, NormalizedUserName = name.ToUpperInvariant() });
            await db.SaveChangesAsync(Cancel);
        });
        return workshop;
    }

    /// <summary>One use case in a scope of its own, as one request would run it; the mender does it unless told otherwise.</summary>
    public async Task<T> Do<TService, T>(Func<TService, Task<T>> work, Guid? by = null)
        where TService : notnull
    {
        await using var scope = services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(by ?? Mender, by == Helper ? "Helper" : "Mender", isOwner: true);
        return await work(scope.ServiceProvider.GetRequiredService<TService>());
    }

    public Task Db(Func<ShopDb, Task> work) => Do<ShopDb, bool>(async db =>
    {
        await work(db);
        return true;
    });

    public Task<T> Db<T>(Func<ShopDb, Task<T>> work) => Do(work);

    /// <summary>A camera booked in yesterday, with its customer.</summary>
    public async Task<Repair> Repair(Action<Repair, Camera>? change = null)
    {
        var customer = new Customer { Name = "A. Customer", CreatedAt = Clock.Now };
        var camera = new Camera
        {
            OwnerId = customer.Id,
            Maker = "Example Works",
            Model = "Model " + (repairs + 1),
            ShutterKind = ShutterKind.BetweenLens,
            MarkedSpeeds = ["1", "1/2", "1/4", "1/8", "1/15", "1/30", "1/60", "1/125", "1/250", "1/500", "B"],
            CreatedAt = Clock.Now,
        };
        var repair = new Repair
        {
            Number = $"2026-{++repairs:0000}",
            CustomerId = customer.Id,
            CameraId = camera.Id,
            BookedAt = Clock.Now.AddDays(-1),
            BookedBy = Mender,
            Complaint = "Slow speeds drag",
        };
        change?.Invoke(repair, camera);
        await Db(async db =>
        {
            db.AddRange(customer, camera, repair);
            await db.SaveChangesAsync(Cancel);
        });
        return repair;
    }

    public async ValueTask DisposeAsync()
    {
        await services.DisposeAsync();
        await database.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }
}
