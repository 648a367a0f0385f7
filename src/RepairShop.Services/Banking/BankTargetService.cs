using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;

namespace RepairShop.Services.Banking;

/// <param name="Numbers">Open invoices found by what was typed; empty where the customer was found by name.</param>
public sealed record BankTarget(Guid Customer, string Name, string City, IReadOnlyList<string> Numbers);

/// <summary>Finds whose money a line may be: by an open invoice's number, or by the customer.</summary>
public sealed class BankTargetService(ShopDb db, InvoiceListService invoices, CustomerService customers)
{
    private const int Most = 12;

    public async Task<IReadOnlyList<BankTarget>> FindAsync(string typed, CancellationToken cancel)
    {
        var rows = (await invoices.ListAsync(InvoiceShow.Unpaid, typed, null, cancel)).Rows.Where(row => row.Balance > 0).Take(Most).ToList();
        var ids = rows.ConvertAll(row => row.Id);
        var owners = await (
            from invoice in db.Invoices
            join customer in db.Customers on invoice.CustomerId equals customer.Id
            where ids.Contains(invoice.Id)
            select new { invoice.Id, Target = new BankTarget(customer.Id, customer.Name.Length > 0 ? customer.Name : customer.Company, customer.Address.City, Array.Empty<string>()) })
            .ToDictionaryAsync(row => row.Id, row => row.Target, cancel);
        var byInvoice = rows.GroupBy(row => owners[row.Id].Customer)
            .Select(group => owners[group.First().Id] with { Numbers = [.. group.Select(row => row.Number!).Order(StringComparer.Ordinal)] }).ToList();
        var byName = (await customers.FindAsync(typed, cancel)).Select(line => new BankTarget(line.Id, line.Name.Length > 0 ? line.Name : line.Company, line.City, []));
        return [.. byInvoice.Concat(byName).DistinctBy(target => target.Customer).Take(Most)];
    }
}
