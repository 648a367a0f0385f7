using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using RepairShop.Services.Accounts;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

/// <summary>A book in which cameras are booked in and seen out, with a clock the test sets and the owner acting.</summary>
public sealed class CounterBook : IAsyncDisposable
{
    private readonly TestDatabase database;
    private readonly string folder = TestFolders.Create("counter");
    private readonly ServiceProvider services;

    private CounterBook(TestDatabase database)
    {
        this.database = database;
        var collection = new ServiceCollection();
        collection.AddLogging();
        collection.AddSingleton<TimeProvider>(Clock);
        collection.AddShopServices(database.ConnectionString, folder);
        services = collection.BuildServiceProvider();
    }

    public FakeTimeProvider Clock { get; } = new(new DateTimeOffset(2026, 11, 24, 9, 0, 0, TimeSpan.Zero));

    public Guid Owner { get; } = Guid.CreateVersion7();

    public static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<CounterBook> OpenAsync(PostgresServer server)
    {
        var book = new CounterBook(await server.CreateDatabaseAsync(Cancel));
        await book.Db(async db =>
        {
            await ShopDefaults.EnsureAsync(db, Cancel);
            db.Users.Add(new Account { Id = book.Owner, DisplayName = "Owner", UserName = "owner", NormalizedUserName = "OWNER" });
            await db.SaveChangesAsync(Cancel);
            return 0;
        });
        await book.services.GetRequiredService<ShopFace>().FreshenAsync(Cancel);
        return book;
    }

    /// <summary>One use case in a scope of its own, as one request runs it.</summary>
    public async Task<T> Do<TService, T>(Func<TService, Task<T>> work, bool asOwner = true) where TService : notnull
    {
        await using var scope = services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(Owner, "Owner", asOwner);
        return await work(scope.ServiceProvider.GetRequiredService<TService>());
    }

    public Task<T> Db<T>(Func<ShopDb, Task<T>> work) => Do(work);

    /// <summary>A booking of a new customer's new camera; the customer's name and the serial are unlike any other unless given.</summary>
    public static BookingInput Booking(string? name = null, string? serial = null, RepairInput? facts = null) => new()
    {
        FormKey = Guid.CreateVersion7(),
        NewCustomer = new CustomerInput { Name = name ?? $"Customer {Guid.NewGuid():N}" },
        NewCamera = new CameraInput { Maker = "Orrevale", Model = "Pelter", BodySerial = serial ?? Guid.NewGuid().ToString("N")[..10] },
        CustomerIsSomebodyElse = name is null,
        Facts = facts ?? new RepairInput { Complaint = "Slow speeds hang", ConsentBy = "The customer", ConsentHow = Domain.Repairs.AnswerWay.InPerson },
    };

    public async Task<Booked> Book(BookingInput? input = null)
    {
        var booked = await Do<BookingService, Domain.Results.Result<Booked>>(booking => booking.BookAsync(input ?? Booking(), Cancel));
        Assert.Null(booked.Failure);
        return booked.Value!;
    }

    public async ValueTask DisposeAsync()
    {
        await services.DisposeAsync();
        await database.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }
}
