using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Everything about the money of one repair, for showing.</summary>
public sealed class InvoiceReadService(ShopDb db, TimeProvider clock, CeilingService ceilings)
{
    public async Task<Result<MoneySheet>> SheetAsync(string number, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var invoices = await db.Invoices.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == file.Repair.Id).OrderBy(row => row.IssuedAt).ToListAsync(cancel);
        var ids = invoices.Select(invoice => invoice.Id).ToList();
        var payments = await db.Payments.AsNoTracking().Where(row => ids.Contains(row.InvoiceId)).OrderBy(row => row.Id).ToListAsync(cancel);
        var papers = await db.Papers.AsNoTracking().Where(row => row.InvoiceId != null && row.RepairId == file.Repair.Id)
            .Select(row => new { row.Id, row.InvoiceId }).ToListAsync(cancel);
        var today = file.Shop.Today(clock.GetUtcNow());
        var sources = await InvoiceSources.LoadAsync(db, file, cancel);
        return new MoneySheet(
            number, file.CameraName, file.Customer.Name, file.Customer.Email, file.Shop.Currency, file.Repair.WarrantyOfId is not null,
            await ceilings.OfAsync(file.Repair, file.Shop, cancel),
            invoices.SingleOrDefault(invoice => invoice.IssuedAt is null) is { } draft ? await FormAsync(file, draft, sources, cancel) : null,
            [.. invoices.Where(invoice => invoice.IssuedAt is not null).Select(invoice => View(
                invoice, invoices, payments, papers.FirstOrDefault(paper => paper.InvoiceId == invoice.Id)?.Id, today))],
            sources.Suggested());
    }

    private async Task<InvoiceForm> FormAsync(RepairFile file, Invoice draft, InvoiceSources sources, CancellationToken cancel) => new(
        draft.Id, draft.Version, draft.Basis, InvoiceService.AsForm(draft),
        await DraftLines.TaxChoicesAsync(db, file.Shop, draft.Lines.Select(line => (line.TaxName, line.TaxPercent)), cancel),
        draft.PricesIncludeTax, InvoiceService.TotalsOf(draft),
        draft.Basis != InvoiceBasis.AsEstimated || sources.Approved is not { } approved
            ? []
            : [.. approved.Lines.Where(line => line.Kind == LineKind.Labour).OrderBy(line => line.Position)
                .Select(line => new HoursRange(line.Text, line.LowQuantity, line.HighQuantity))]);

    private static InvoiceView View(Invoice invoice, List<Invoice> all, List<Payment> payments, Guid? paper, DateOnly today) => new(
        invoice.Id, invoice.Kind, invoice.Basis, invoice.Number!, invoice.IssueDate!.Value, invoice.DueDate, invoice.Currency, invoice.Net, invoice.Tax,
        invoice.Gross, invoice.Paid, invoice.Credited, invoice.Balance, invoice.Note,
        all.FirstOrDefault(other => other.Id == invoice.CreditsId)?.Number,
        all.FirstOrDefault(other => other.CreditsId == invoice.Id)?.Number,
        [.. invoice.Lines.OrderBy(line => line.Position)],
        [.. payments.Where(payment => payment.InvoiceId == invoice.Id).Select(payment => new PaymentView(
            payment.Id, payment.Amount, payment.Method, payment.Reference, payment.PaidOn, payment.TakesBackId is not null,
            payments.Any(other => other.TakesBackId == payment.Id)))],
        paper, invoice.Balance > 0 && invoice.DueDate < today);
}
