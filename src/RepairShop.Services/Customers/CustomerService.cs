using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Customers;

/// <summary>Customers: find, add, change, list.</summary>
public sealed class CustomerService(ShopDb db, TimeProvider clock)
{
    /// <param name="input">As typed.</param>
    /// <param name="isSomebodyElse">The person has seen who is alike in the book and says that this is another.</param>
    /// <param name="cancel"></param>
    public async Task<Result<Guid>> AddAsync(CustomerInput input, bool isSomebodyElse, CancellationToken cancel)
    {
        var customer = New(input);
        if (await CheckNewAsync(customer, isSomebodyElse, cancel) is { IsDone: false } refused)
            return refused.Failure;
        db.Customers.Add(customer);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? customer.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid id, uint version, CustomerInput input, CancellationToken cancel)
    {
        if (await db.Customers.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } customer)
            return new CustomerNotFound();
        input.WriteTo(customer);
        if (CustomerRules.Check(customer) is { IsDone: false } refused)
            return refused;
        db.Entry(customer).Property(row => row.Version).OriginalValue = version;
        return await db.SaveAsync(cancel);
    }

    /// <summary>Up to twelve customers for what was typed in a find box, likeliest first.</summary>
    public async Task<IReadOnlyList<CustomerLine>> FindAsync(string? typed, CancellationToken cancel)
    {
        var words = await SearchWords.ReadAsync(db, typed, cancel);
        if (words.AreNone)
            return [];
        var found = await Lines(words.In(db.Customers).OrderBy(row => row.Name)).Take(12).ToListAsync(cancel);
        return found.Count > 0 || await words.PutRightAsync(db, cancel) is not { } right
            ? found
            : await Lines(right.In(db.Customers).OrderBy(row => row.Name)).Take(12).ToListAsync(cancel);
    }

    /// <summary>A page of all customers by name, or of those that match.</summary>
    public Task<ListPage<CustomerLine>> ListAsync(string? typed, string? after, CancellationToken cancel) =>
        SearchWords.PageAsync(db, typed, after, (words, from) => PageAsync(words, from, cancel), cancel);

    public async Task<Result<CustomerView>> GetAsync(Guid id, CancellationToken cancel)
    {
        if (await db.Customers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } customer)
            return new CustomerNotFound();
        var cameras = await db.Cameras.Where(row => row.OwnerId == id).OrderBy(row => row.Maker).ThenBy(row => row.Model)
            .Select(row => new CustomersCamera(row.Id, row.Maker, row.Model, row.Variant, row.BodySerial)).ToListAsync(cancel);
        var repairs = await (
            from repair in db.Repairs
            join camera in db.Cameras on repair.CameraId equals camera.Id
            join stage in db.RepairStages on repair.Id equals stage.RepairId
            where repair.CustomerId == id
            orderby repair.BookedAt descending
            select new CustomersRepair(repair.Number, (camera.Maker + " " + camera.Model + " " + camera.Variant).Trim(), repair.BookedAt, stage.Stage))
            .Take(100).ToListAsync(cancel);
        var owed = await db.Invoices
            .Where(row => row.CustomerId == id && row.Kind == InvoiceKind.Invoice && row.IssuedAt != null)
            .SumAsync(row => row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff, cancel);
        return new CustomerView(id, Details(customer), customer.CreatedAt, customer.Version, cameras, repairs, owed)
        {
            Credit = await db.CustomerCredits.Where(row => row.CustomerId == id && db.Shop.Any(shop => shop.Currency == row.Currency)).SumAsync(row => row.Amount, cancel),
        };
    }

    /// <summary>Who in the book is like this one: same e-mail, same telephone digits, or a similar name.</summary>
    public async Task<IReadOnlyList<KnownCustomer>> LikeAsync(Customer customer, CancellationToken cancel)
    {
        var email = customer.Email.ToLowerInvariant();
        var digits = new string([.. customer.Phone.Where(char.IsAsciiDigit)]);
        // +44 20… and 020… are one telephone, so the ends are compared.
        digits = digits.Length < 6 ? "" : digits[^Math.Min(8, digits.Length)..];
        var name = customer.Name.Length > 0 ? customer.Name : customer.Company;
        var rows = await db.Database.SqlQuery<LikeRow>(
            $"""
            select c.id, c.name, c.company, c.email, c.phone, c.address_city as city,
              {email} <> '' and lower(c.email) = {email} as same_email,
              {digits} <> '' and right(shop_digits(c.phone), 8) = {digits} as same_phone
            from customers c
            where ({email} <> '' and lower(c.email) = {email})
               or ({digits} <> '' and c.phone <> '' and right(shop_digits(c.phone), 8) = {digits})
               or (shop_fold({name}) <% c.search_text and (
                     similarity(shop_fold({name}), shop_fold(c.name)) > 0.55
                  or similarity(shop_fold({name}), shop_fold(c.company)) > 0.55))
            order by 7 desc, 8 desc, similarity(shop_fold({name}), shop_fold(c.name)) desc
            limit 6
            """).ToListAsync(cancel);
        return [.. rows.Where(row => row.Id != customer.Id).Select(row => new KnownCustomer(
            row.Id, NameOf(row.Name, row.Company), row.Email, row.Phone, row.City,
            row.SameEmail ? "same e-mail" : row.SamePhone ? "same phone" : "similar name"))];
    }

    internal Customer New(CustomerInput input)
    {
        var customer = new Customer { CreatedAt = clock.GetUtcNow() };
        input.WriteTo(customer);
        return customer;
    }

    internal async Task<Result> CheckNewAsync(Customer customer, bool isSomebodyElse, CancellationToken cancel)
    {
        if (CustomerRules.Check(customer) is { IsDone: false } refused)
            return refused;
        if (!isSomebodyElse && await LikeAsync(customer, cancel) is { Count: > 0 } known)
            return new CustomerMayBeKnown(known);
        return Result.Done;
    }

    internal static string NameOf(string name, string company) =>
        name.Length == 0 ? company : company.Length == 0 ? name : $"{name}, {company}";

    private static CustomerInput Details(Customer row) => new()
    {
        Name = row.Name,
        Company = row.Company,
        Email = row.Email,
        Phone = row.Phone,
        Street = row.Address.Street,
        Street2 = row.Address.Street2,
        PostalCode = row.Address.PostalCode,
        City = row.Address.City,
        Region = row.Address.Region,
        CountryCode = row.Address.CountryCode,
        TaxNumber = row.TaxNumber,
        TaxProfileId = row.TaxProfileId,
        NoReminders = row.NoReminders,
        Notes = row.Notes,
    };

    private async Task<ListPage<CustomerLine>> PageAsync(SearchWords words, string? after, CancellationToken cancel)
    {
        var rows = words.In(db.Customers);
        if (ListKey.Read(after) is var (name, id))
            rows = rows.Where(row => EF.Functions.GreaterThan(ValueTuple.Create(row.Name, row.Id), ValueTuple.Create(name, id)));
        var lines = await Lines(rows.OrderBy(row => row.Name).ThenBy(row => row.Id)).Take(ListPages.Size + 1).ToListAsync(cancel);
        return ListPages.Of(lines, line => ListKey.Write(line.Name, line.Id), words.Instead);
    }

    private static IQueryable<CustomerLine> Lines(IQueryable<Customer> rows) =>
        rows.Select(row => new CustomerLine(row.Id, row.Name, row.Company, row.Email, row.Phone, row.Address.City));

    private sealed record LikeRow(
        Guid Id, string Name, string Company, string Email, string Phone, string City, bool SameEmail, bool SamePhone);
}
