using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Parts;
using RepairShop.Services.Post;

namespace RepairShop.Services.Demo;

/// <summary>Fills an empty book with an invented workshop: about 18 months of repairs in every stage, dated back from today,
/// played through the same services the pages use. A book that was filled before is left alone.</summary>
public static class DemoWorkshop
{
    /// <summary>For looking around on one's own machine only; told on the console.</summary>
    public const string Password = "saltmere-lantern";

    private const string DoneMark = "demo";

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter() } };

    /// <param name="services">The running program's services, for the accounts.</param>
    /// <param name="connectionString">The book to fill.</param>
    /// <param name="dataDirectory">Its data folder.</param>
    /// <param name="tell">Told what is going on, line by line.</param>
    /// <param name="cancel">Stops the filling; the book is then half full.</param>
    /// <exception cref="InvalidOperationException">The book was filled half only before, or holds other work.</exception>
    public static async Task FillAsync(
        IServiceProvider services, string connectionString, string dataDirectory, Action<string> tell, CancellationToken cancel)
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "seed");
        var seed = JsonSerializer.Deserialize<DemoSeed>(await File.ReadAllTextAsync(Path.Combine(folder, "demo.json"), cancel), Json)!;
        await using (var scope = services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
            if (await db.NumberSeries.AnyAsync(row => row.Key == DoneMark, cancel))
                return;
            if (await db.Customers.AnyAsync(cancel))
                throw new InvalidOperationException(
                    $"The data folder {dataDirectory} holds a book that is not a whole demo workshop: delete the folder, or start without --demo.");
        }

        tell($"Filling the demo workshop “{seed.Shop.Name}” with {seed.Repairs.Length} repairs…");
        var people = await PeopleAsync(services, seed, cancel);
        var clock = new DemoClock();
        var today = TimeProvider.System.GetUtcNow();
        await using var past = Past(connectionString, dataDirectory, clock);
        var book = new DemoBook(past, clock, people, cancel);
        clock.Now = today.AddDays(-560);
        await ShopAsync(past, seed, cancel);
        var rate = seed.Shop.TaxRates.Single(tax => tax.IsDefault);
        var stock = new DemoStock(seed, folder, today, TaxChoice.KeyOf(rate.Name, rate.Percent));
        await CustomersAsync(book, stock, seed);
        await PartsAsync(book, seed);
        await DemoTools.AddAsync(book);
        var strips = JsonSerializer.Deserialize<SeedStripDown[]>(await File.ReadAllTextAsync(Path.Combine(folder, "strip-downs.json"), cancel), Json)!;
        await JobsAsync(book, stock, seed, strips, past.GetRequiredService<PostOffice>(), tell);
        await DemoMoney.AddAsync(book, stock.Customers[seed.Customers[0].Key]);
        await DemoReminders.AddAsync(book, today);
        await DemoBank.AddAsync(book, seed.Shop);
        await new DemoNotebook(book, stock, folder).FillAsync(strips);

        await using var last = services.CreateAsyncScope();
        var done = last.ServiceProvider.GetRequiredService<ShopDb>();
        done.NumberSeries.Add(new NumberSeries { Key = DoneMark, LastNumber = 1 });
        await done.SaveChangesAsync(cancel);
    }

    /// <summary>How to get in.</summary>
    public static IEnumerable<string> SignIns()
    {
        yield return "Demo workshop, three people with the same password:";
        yield return $"  owner    maren@ternstreet.example    {Password}";
        yield return $"  bench    ferdia@ternstreet.example   {Password}";
        yield return $"  counter  oona@ternstreet.example     {Password}";
    }

    private static ServiceProvider Past(string connectionString, string dataDirectory, DemoClock clock) => new ServiceCollection()
        .AddLogging(logging => logging.SetMinimumLevel(LogLevel.Warning))
        .AddSingleton<TimeProvider>(clock)
        .AddShopServices(connectionString, dataDirectory)
        .AddSingleton(MailSettings.Read(new ConfigurationBuilder().Build(), dataDirectory))
        .AddSingleton<PostOffice>()
        .BuildServiceProvider();

    private static async Task<IReadOnlyDictionary<string, DemoPerson>> PeopleAsync(IServiceProvider services, DemoSeed seed, CancellationToken cancel)
    {
        await using var scope = services.CreateAsyncScope();
        var users = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        var people = new Dictionary<string, DemoPerson>();
        foreach (var person in seed.People)
        {
            cancel.ThrowIfCancellationRequested();
            var account = new Account { Id = Guid.CreateVersion7(), UserName = person.Email, Email = person.Email, DisplayName = person.Name };
            var made = await users.CreateAsync(account, Password);
            if (!made.Succeeded)
                throw new InvalidOperationException($"The demo account {person.Email} could not be made: {made.Errors.First().Description}");
            await users.AddToRoleAsync(account, person.Role);
            people[person.Key] = new DemoPerson(account.Id, person.Name);
        }
        return people;
    }

    private static async Task ShopAsync(IServiceProvider past, DemoSeed seed, CancellationToken cancel)
    {
        await using var scope = past.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        var shop = await db.Shop.SingleAsync(cancel);
        var said = seed.Shop;
        (shop.Name, shop.Email, shop.Phone) = (said.Name, said.Email, said.Phone);
        (shop.Address.Street, shop.Address.PostalCode, shop.Address.City, shop.Address.CountryCode) =
            (said.Street, said.PostalCode, said.City, said.CountryCode);
        (shop.TaxRegistered, shop.TaxNumber, shop.PricesIncludeTax) = (true, said.TaxNumber, false);
        shop.EInvoices = EInvoiceUse.WherePossible;
        (shop.Currency, shop.Locale, shop.TimeZone) = (said.Currency, said.Locale, said.TimeZone);
        (shop.LabourRate, shop.LabourRounding, shop.MinimumCharge, shop.StripDownCharge) =
            (said.LabourRate, said.LabourRounding, said.MinimumCharge, said.StripDownCharge);
        (shop.BankName, shop.AccountHolder, shop.Iban) = (said.BankName, said.AccountHolder, said.Iban);
        (shop.WarrantyMonths, shop.DefaultInstrument, shop.DefaultResolutionSeconds) = (said.WarrantyMonths, said.Instrument, said.ResolutionSeconds);
        db.TaxRates.RemoveRange(db.TaxRates);
        db.TaxRates.AddRange(said.TaxRates.Select(tax => new TaxRate { Name = tax.Name, Percent = tax.Percent, IsDefault = tax.IsDefault }));
        await db.SaveChangesAsync(cancel);
    }

    private static async Task CustomersAsync(DemoBook book, DemoStock stock, DemoSeed seed)
    {
        var profiles = await DemoTax.AddAsync(book);
        foreach (var customer in seed.Customers)
        {
            stock.Customers[customer.Key] = await book.DoAsync<CustomerService, Guid>("counter", customers => customers.AddAsync(new CustomerInput
            {
                Name = customer.Name,
                Company = customer.Company,
                Email = customer.Email,
                Phone = customer.Phone,
                Street = customer.Street,
                PostalCode = customer.PostalCode,
                City = customer.City,
                CountryCode = customer.CountryCode,
                TaxNumber = customer.TaxNumber,
                TaxProfileId = customer.Profile.Length > 0 ? profiles[customer.Profile] : null,
            }, true, book.Cancel));
        }
        foreach (var camera in seed.Cameras)
        {
            stock.Cameras[camera.Key] = await book.DoAsync<CameraService, Guid>("counter", cameras => cameras.AddAsync(stock.Customers[camera.Owner], new CameraInput
            {
                Maker = camera.Maker,
                Model = camera.Model,
                Variant = camera.Variant,
                Format = camera.Format,
                BodySerial = camera.BodySerial,
                Lens = camera.Lens,
                LensSerial = camera.LensSerial,
                ShutterKind = camera.ShutterKind,
                Shutter = camera.Shutter,
                MarkedSpeeds = string.Join(' ', camera.Speeds),
            }, true, book.Cancel));
        }
    }

    private static async Task PartsAsync(DemoBook book, DemoSeed seed)
    {
        foreach (var part in seed.Parts)
        {
            var id = await book.DoAsync<PartService, Guid>("bench", parts => parts.AddAsync(new PartTyped(
                part.Number, part.Name, part.Fits, part.Provenance, part.Cost, part.Price, part.Place, part.Reorder, 0), book.Cancel));
            await book.DoAsync<PartService>("bench", parts => parts.BringInAsync(id, MovementKind.Received, part.Received, part.Cost, "Opening stock", book.Cancel));
        }
    }

    private static DateTimeOffset Morning(DateTimeOffset day) => new(day.Date.AddHours(9), TimeSpan.Zero);

    private static async Task JobsAsync(
        DemoBook book, DemoStock stock, DemoSeed seed, SeedStripDown[] strips, PostOffice post, Action<string> tell)
    {
        var steps = seed.Repairs.SelectMany((repair, index) =>
        {
            var camera = seed.Cameras.Single(one => one.Key == repair.Camera);
            var strip = strips.SingleOrDefault(one => one.Camera == repair.Camera && one.DaysAgo == repair.DaysAgo);
            var job = new DemoJob(
                book, stock, repair, seed.Cases[repair.Case], camera, seed.Customers.Single(one => one.Key == camera.Owner),
                strip is null ? null : new DemoStrip(book, stock, strip), index);
            var booked = repair.DaysAgo <= 1 && Morning(stock.Today) > stock.Today.AddHours(-4) ? stock.Today.AddDays(-repair.DaysAgo).AddMinutes(-40) : Morning(stock.Today).AddDays(-repair.DaysAgo).AddMinutes(index * 17 % 180);
            return job.Steps().Select(step => (At: booked.AddDays(step.Day), step.Deed));
        }).OrderBy(step => step.At).ToList();
        for (var i = 0; i < steps.Count; i++)
        {
            book.SetClock(steps[i].At);
            await steps[i].Deed();
            await post.SendDueAsync(book.Cancel);
            if ((i + 1) % 100 == 0)
                tell($"  {i + 1} of {steps.Count} entries");
        }
    }
}
