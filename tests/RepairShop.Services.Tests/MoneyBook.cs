using MailKit.Security;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Invoices;
using RepairShop.Services.Post;
using RepairShop.Services.Shop;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests;

/// <summary>A workshop's book with prices, tax and post, for tests of offers, bills and letters.</summary>
public sealed class MoneyBook : IAsyncDisposable
{
    private readonly TestDatabase database;
    private readonly ServiceProvider services;
    private int repairs;

    private MoneyBook(TestDatabase database, MailSettings? mail)
    {
        this.database = database;
        var collection = new ServiceCollection();
        collection.AddLogging();
        collection.AddSingleton<TimeProvider>(Clock);
        collection.AddShopServices(database.ConnectionString, Folder);
        collection.AddSingleton(mail ?? new MailSettings("", 587, "", "", "", SecureSocketOptions.StartTls, PostFolder));
        collection.AddSingleton<PostOffice>();
        services = collection.BuildServiceProvider();
    }

    public string Folder { get; } = TestFolders.Create("money");

    public string PostFolder => Path.Combine(Folder, "post");

    public FakeTimeProvider Clock { get; } = new(new DateTimeOffset(2026, 11, 24, 9, 0, 0, TimeSpan.Zero));

    public Guid Person { get; } = Guid.CreateVersion7();

    public DateOnly Today => DateOnly.FromDateTime(Clock.GetUtcNow().UtcDateTime);

    public PostOffice Office => services.GetRequiredService<PostOffice>();

    public static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<MoneyBook> OpenAsync(PostgresServer server, Action<ShopSettings>? change = null, MailSettings? mail = null)
    {
        var book = new MoneyBook(await server.CreateDatabaseAsync(Cancel), mail);
        await book.Db(async db =>
        {
            await ShopDefaults.EnsureAsync(db, Cancel);
            var shop = await db.Shop.SingleAsync(Cancel);
            (shop.Name, shop.Email, shop.Currency, shop.LabourRate, shop.TaxRegistered) = ("Example Bench", "bench@example.com", "EUR", 60, true);
            (shop.Address.CountryCode, shop.Locale, shop.TimeZone) = ("IE", "en-IE", "Europe/Dublin");
            shop.PublicAddress = "https://book.example.com";
            change?.Invoke(shop);
            db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 21, IsDefault = true });
            db.Users.Add(new Account { Id = book.Person, DisplayName = "Ada Sample", UserName = "ada", NormalizedUserName = "ADA" });
            await db.SaveChangesAsync(Cancel);
        });
        return book;
    }

    /// <summary>One use case in a scope of its own, as one request would run it.</summary>
    public async Task<T> Do<TService, T>(Func<TService, Task<T>> work)
        where TService : notnull
    {
        await using var scope = services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(Person, "Ada Sample", isOwner: true);
        return await work(scope.ServiceProvider.GetRequiredService<TService>());
    }

    public Task Db(Func<ShopDb, Task> work) => Do<ShopDb, bool>(async db =>
    {
        await work(db);
        return true;
    });

    public Task<T> Db<T>(Func<ShopDb, Task<T>> work) => Do(work);

    public async Task<Repair> Repair(decimal? preApproved = null, string email = "lukasz@example.com", string name = "Łukasz Example")
    {
        var customer = new Customer { Name = name, Email = email, CreatedAt = Clock.GetUtcNow() };
        var camera = new Camera { OwnerId = customer.Id, Maker = "Example Works", Model = "Model 3", BodySerial = "41234", CreatedAt = Clock.GetUtcNow() };
        var repair = new Repair
        {
            Number = $"2026-{Interlocked.Increment(ref repairs):0000}",
            CustomerId = customer.Id,
            CameraId = camera.Id,
            BookedAt = Clock.GetUtcNow().AddDays(-2),
            BookedBy = Person,
            Complaint = "Slow speeds drag",
            PreApprovedLimit = preApproved,
        };
        await Db(async db =>
        {
            db.AddRange(customer, camera, repair);
            await db.SaveChangesAsync(Cancel);
        });
        return repair;
    }

    public static DraftLine Labour(decimal low, decimal high, decimal price = 60) =>
        new(LineKind.Labour, "Clean and adjust shutter", low, high, "h", price, "Standard|21");

    public EstimateDraft Draft(params DraftLine[] lines) => new() { ValidUntil = Today.AddDays(30), StripDownCharge = 25, Lines = lines };

    /// <summary>An offer that went out: 2 to 3 hours at 60 and 21 % make 145.20 to 217.80.</summary>
    public async Task Sent(string number, bool byMail = false, params DraftLine[] lines)
    {
        var draft = lines.Length > 0 ? lines : [Labour(2, 3)];
        Done(await Do<EstimateService, Result<int>>(service => service.SaveDraftAsync(number, Draft(draft), null, Cancel)));
        Done(await Do<EstimateSendService, Result<Services.Paperwork.IssuedPaper>>(service => service.SendAsync(number, byMail, Cancel)));
    }

    public Task<Result> Answer(string number, EstimateAnswer answer, int revision = 1) => Do<EstimateAnswerService, Result>(service =>
        service.AnswerAsync(number, revision, answer, "Łukasz Example", AnswerWay.Phone, "", Cancel));

    public async Task<MoneySheet> Money(string number) =>
        Done(await Do<InvoiceReadService, Result<MoneySheet>>(service => service.SheetAsync(number, Cancel)));

    public async Task<EstimateSheet> Offers(string number) =>
        Done(await Do<EstimateService, Result<EstimateSheet>>(service => service.SheetAsync(number, Cancel)));

    public static T Done<T>(Result<T> result)
    {
        Assert.True(result.IsDone, result.Failure?.Message);
        return result.Value;
    }

    public static void Done(Result result) => Assert.True(result.IsDone, result.Failure?.Message);

    public async ValueTask DisposeAsync()
    {
        await services.DisposeAsync();
        await database.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }
}
