using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Shop;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>A thousand invoices issued, each with its sums, number, paper, journal and audit trail, against the very same rows and
/// files put into an equal book by hand, without working anything out. In turns, invoice by invoice, on one server.</summary>
internal static class Issuing
{
    private const int Invoices = 1000;
    private const int InARound = 100;
    private const int WarmUp = 20;

    private static readonly Guid Owner = new("00000000-0000-4000-c000-000000000001");

    public static async Task<IReadOnlyList<Comparison>> RunAsync(PostgresServer server, CancellationToken cancel)
    {
        await using var ourBook = await server.CreateDatabaseAsync(cancel);
        await using var handBook = await server.CreateDatabaseAsync(cancel);
        var folder = TestFolders.Create("issuing");
        try
        {
            var rounds = await CompareAsync(ourBook.ConnectionString, handBook.ConnectionString, folder, cancel);
            return [Comparison.Of("an invoice issued", "ms", rounds, (ours, hand) => ours / hand, "none set", null)];
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<List<(double Ours, double Hand)>> CompareAsync(string ours, string hand, string folder, CancellationToken cancel)
    {
        await using var services = Services(ours, Path.Combine(folder, "ours"));
        await using var handServices = Services(hand, Path.Combine(folder, "hand"));
        await FillAsync(services, cancel);
        await FillAsync(handServices, cancel);
        await using var ourSource = NpgsqlDataSource.Create(ours);
        await using var handSource = NpgsqlDataSource.Create(hand);
        var byHand = new IssuingByHand(ourSource, handSource, services.GetRequiredService<FileStore>(), handServices.GetRequiredService<FileStore>());
        await byHand.BeginAsync(cancel);
        var rounds = new List<(double, double)>();
        var sums = (Ours: 0.0, Hand: 0.0);
        for (var number = 1; number <= Invoices + WarmUp; number++)
        {
            var clock = Stopwatch.StartNew();
            await IssueAsync(services, InvoiceId(number), cancel);
            sums.Ours += clock.Elapsed.TotalMilliseconds;
            var rows = await byHand.ReadAsync(InvoiceId(number), cancel);
            clock.Restart();
            await byHand.WriteAsync(rows, cancel);
            sums.Hand += clock.Elapsed.TotalMilliseconds;
            if (number > WarmUp && (number - WarmUp) % InARound == 0)
                rounds.Add((sums.Ours / InARound, sums.Hand / InARound));
            if (number <= WarmUp || (number - WarmUp) % InARound == 0)
                sums = default;
        }

        await byHand.CompareAsync(cancel);
        return rounds;
    }

    private static ServiceProvider Services(string connectionString, string folder)
    {
        var collection = new ServiceCollection();
        collection.AddLogging();
        collection.AddSingleton(TimeProvider.System);
        collection.AddShopServices(connectionString, folder);
        return collection.BuildServiceProvider();
    }

    private static async Task IssueAsync(ServiceProvider services, Guid id, CancellationToken cancel)
    {
        await using var scope = services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(Owner, "Ola Example", isOwner: true);
        Result<IssuedPaper> issued = await scope.ServiceProvider.GetRequiredService<InvoiceIssueService>().IssueAsync(id, byMail: false, cancel);
        if (!issued.IsDone)
            throw new InvalidOperationException(issued.Failure.Message);
    }

    private static Guid InvoiceId(int number) => new($"00000000-0000-4000-a000-{number:000000000000}");

    private static async Task FillAsync(ServiceProvider services, CancellationToken cancel)
    {
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        await ShopDefaults.EnsureAsync(db, cancel);
        var shop = await db.Shop.SingleAsync(cancel);
        (shop.Name, shop.Currency, shop.TaxRegistered, shop.Address.CountryCode) = ("Example Bench", "EUR", true, "IE");
        db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 23, IsDefault = true });
        var now = DateTimeOffset.UtcNow;
        var customer = new Customer { Id = new("00000000-0000-4000-b000-000000000001"), Name = "Ines Example", CreatedAt = now };
        var camera = new Camera { Id = new("00000000-0000-4000-b000-000000000002"), OwnerId = customer.Id, Maker = "Orrevale", Model = "Model 3", CreatedAt = now };
        db.AddRange(customer, camera);
        for (var number = 1; number <= Invoices + WarmUp; number++)
        {
            var repair = new Repair { Id = new($"00000000-0000-4000-9000-{number:000000000000}"), Number = $"B-{number:0000}", CustomerId = customer.Id, CameraId = camera.Id, BookedAt = now, BookedBy = Owner, Complaint = "Slow speeds hang", PreApprovedLimit = 1000 };
            var invoice = new Invoice { Id = InvoiceId(number), RepairId = repair.Id, CustomerId = customer.Id, CreatedAt = now, CreatedBy = Owner, Basis = InvoiceBasis.AsWorked, Currency = "EUR", TaxRegistered = true };
            invoice.Lines.Add(new InvoiceLine { Position = 1, Kind = LineKind.Labour, Text = "Clean and adjust shutter", Quantity = 2.5m, Unit = "h", UnitPrice = 60 + (number % 7), TaxName = "Standard", TaxPercent = 23 });
            invoice.Lines.Add(new InvoiceLine { Position = 2, Kind = LineKind.Part, Text = "Cell spring", Quantity = 1, Unit = "pc", UnitPrice = 4.35m, TaxName = "Standard", TaxPercent = 23 });
            db.AddRange(repair, invoice);
        }

        await db.SaveChangesAsync(cancel);
    }
}
