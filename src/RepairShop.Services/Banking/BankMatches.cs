using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Invoices;
using RepairShop.Services.Database;

namespace RepairShop.Services.Banking;

/// <summary>Holds all lines that wait against all that is owed: a line's claim can only be judged beside the others'.</summary>
internal static class BankMatches
{
    /// <summary>Numbers of long ago are not asked for again.</summary>
    private const int SettledDays = 400, MostSettled = 20_000;

    public static async Task<IReadOnlyDictionary<Guid, MatchView>> OfAsync(ShopDb db, DateTimeOffset now, CancellationToken cancel)
    {
        var currency = await db.Shop.AsNoTracking().Select(row => row.Currency).SingleAsync(cancel);
        var lines = (await BankBook.Waiting(db).ToListAsync(cancel)).ConvertAll(BankBook.Open);
        var rows = await (
            from invoice in db.Invoices.AsNoTracking()
            join customer in db.Customers on invoice.CustomerId equals customer.Id
            join repair in db.Repairs on invoice.RepairId equals repair.Id
            where invoice.Kind == InvoiceKind.Invoice && invoice.IssuedAt != null && invoice.Currency == currency
                && invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff > 0
            select new { Invoice = invoice, customer.Name, customer.Company, Repair = repair.Number }).ToListAsync(cancel);
        var open = rows.ConvertAll(row => new OpenInvoice(row.Invoice.CustomerId, [.. new[] { row.Name, row.Company }.Where(name => name.Length > 0)], new OwedInvoice(
            row.Invoice.Id, row.Invoice.DueDate, row.Invoice.IssueDate!.Value, row.Invoice.Number!, row.Invoice.Balance)));
        var matches = new Matcher(open, await SettledAsync(db, now, cancel), await SeenAsync(db, lines, cancel)).Match(lines);
        var byId = rows.ToDictionary(row => row.Invoice.Id);
        var names = rows.DistinctBy(row => row.Invoice.CustomerId).ToDictionary(row => row.Invoice.CustomerId, row => row.Name.Length > 0 ? row.Name : row.Company);
        var amounts = lines.ToDictionary(line => line.Id, line => line.Amount);
        ProposalView View(Guid line, MatchProposal way) => new(
            way.Customer, names[way.Customer],
            [.. way.Shares.Select(share => new ShareView(byId[share.InvoiceId].Invoice.Number!, byId[share.InvoiceId].Repair, share.Amount, byId[share.InvoiceId].Invoice.Balance))],
            amounts[line] - way.Shared, way.Reasons, new BookingChoice(way.Customer, way.Shares).ToString());
        return matches.ToDictionary(
            one => one.Key, one => new MatchView(one.Value.State, one.Value.IsSure, [.. one.Value.Proposals.Select(way => View(one.Key, way))], one.Value.Settled));
    }

    private static Task<List<string>> SettledAsync(ShopDb db, DateTimeOffset now, CancellationToken cancel)
    {
        var since = now.AddDays(-SettledDays);
        return db.Invoices
            .Where(row => row.Kind == InvoiceKind.Invoice && row.IssuedAt > since && row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff <= 0)
            .OrderByDescending(row => row.IssuedAt).Take(MostSettled).Select(row => row.Number!).ToListAsync(cancel);
    }

    private static async Task<ILookup<string, Guid>> SeenAsync(ShopDb db, List<OpenLine> lines, CancellationToken cancel)
    {
        var accounts = lines.Select(line => line.Iban).Where(iban => iban.Length > 0).Distinct().ToList();
        var seen = await (
            from receipt in BankBook.Booked(db)
            join line in db.BankLines on receipt.BankLineId equals line.Id
            where accounts.Contains(line.Iban)
            select new { line.Iban, receipt.CustomerId }).Distinct().ToListAsync(cancel);
        return seen.ToLookup(one => one.Iban, one => one.CustomerId);
    }
}
