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
public sealed class InvoiceReadService(ShopDb db, TimeProvider clock, CeilingService ceilings, TaxProfileService profiles)
{
    public async Task<Result<MoneySheet>> SheetAsync(string number, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var invoices = await db.Invoices.AsNoTracking().Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes).AsSplitQuery()
            .Where(row => row.RepairId == file.Repair.Id).OrderBy(row => row.IssuedAt).ToListAsync(cancel);
        var ids = invoices.Select(invoice => invoice.Id).ToList();
        var payments = await db.Payments.AsNoTracking().Where(row => ids.Contains(row.InvoiceId)).OrderBy(row => row.Id).ToListAsync(cancel);
        var writeOffs = await db.WriteOffs.AsNoTracking().Where(row => ids.Contains(row.InvoiceId)).OrderBy(row => row.Id).ToListAsync(cancel);
        var papers = await db.Papers.AsNoTracking().Where(row => row.InvoiceId != null && row.RepairId == file.Repair.Id)
            .Select(row => new PaperOfInvoice(row.Id, row.InvoiceId!.Value, row.EInvoiceHash != "")).ToListAsync(cancel);
        var now = clock.GetUtcNow();
        var today = file.Shop.Today(now);
        var draft = invoices.SingleOrDefault(invoice => invoice.IssuedAt is null);
        var sources = await InvoiceSources.LoadAsync(db, file, draft?.SupplyDate ?? file.Shop.Today(file.Repair.ReturnedAt ?? file.Repair.ReadyAt ?? now), cancel);
        return new MoneySheet(
            number, file.CameraName, file.Customer.Name, file.Customer.Email, file.Shop.Currency, file.Repair.WarrantyOfId is not null,
            await ceilings.OfAsync(file.Repair, file.Shop, cancel),
            draft is null ? null : await FormAsync(file, draft, invoices, sources, cancel),
            [.. invoices.Where(invoice => invoice.IssuedAt is not null).Select(invoice => View(
                invoice, invoices, payments, writeOffs, papers.FirstOrDefault(paper => paper.InvoiceId == invoice.Id), today))],
            sources.Suggested())
        {
            CustomerId = file.Customer.Id,
            Credit = await db.CustomerCredits.Where(row => row.CustomerId == file.Customer.Id).GroupBy(row => row.Currency)
                .ToDictionaryAsync(group => group.Key, group => group.Sum(row => row.Amount), cancel),
        };
    }

    /// <summary>True for an invoice that belongs to another repair, or to none that has this number.</summary>
    public Task<bool> IsElsewhereAsync(string number, Guid invoiceId, CancellationToken cancel) =>
        db.Invoices.AnyAsync(row => row.Id == invoiceId && !db.Repairs.Any(repair => repair.Id == row.RepairId && repair.Number == number), cancel);

    private async Task<InvoiceForm> FormAsync(RepairFile file, Invoice draft, List<Invoice> all, InvoiceSources sources, CancellationToken cancel)
    {
        var terms = DraftTerms.Of(draft, await TaxTermsReader.OfAsync(db, file.Shop, draft.TaxProfileId, cancel));
        return new InvoiceForm(
            draft.Id, draft.Version, draft.Basis, InvoiceService.AsForm(draft),
            await DraftLines.TaxChoicesAsync(db, terms, draft.SupplyDate ?? default, DraftTerms.InUse(draft), cancel),
            draft.PricesIncludeTax, draft.Totals(),
            draft.Basis != InvoiceBasis.AsEstimated || sources.Approved is not { } approved
                ? []
                : [.. approved.Lines.Where(line => line.Kind == LineKind.Labour).OrderBy(line => line.Position)
                    .Select(line => new HoursRange(line.Text, line.LowQuantity, line.HighQuantity))])
        {
            Deposits = [.. draft.Lines.Where(line => line.DepositId is not null).OrderBy(line => line.Position)],
            Profiles = await profiles.Choices(cancel),
            CashStep = file.Shop.CashStep,
            Hints = InvoiceHints.Of(file, draft, all, terms, sources.Rates, clock.GetUtcNow()),
        };
    }

    private static InvoiceView View(Invoice invoice, List<Invoice> all, List<Payment> payments, List<WriteOff> writeOffs, PaperOfInvoice? paper, DateOnly today)
    {
        var credits = all.Where(other => other.CreditsId == invoice.Id && other.IssuedAt is not null).ToList();
        var left = invoice.Kind == InvoiceKind.Invoice ? CreditLeft.Of(invoice, credits) : null;
        return new InvoiceView(
            invoice.Id, invoice.Kind, invoice.Basis, invoice.Number!, invoice.IssueDate!.Value, invoice.DueDate, invoice.Currency, invoice.Net, invoice.Tax,
            invoice.Gross, invoice.Paid, invoice.Credited, invoice.Balance, invoice.Note,
            all.FirstOrDefault(other => other.Id == invoice.CreditsId)?.Number,
            credits.Count == 0 ? null : string.Join(", ", credits.Select(credit => credit.Number)),
            [.. invoice.Lines.OrderBy(line => line.Position)],
            [.. payments.Where(payment => payment.InvoiceId == invoice.Id).Select(payment => new PaymentView(
                payment.Id, payment.Amount, payment.Method, payment.Reference, payment.PaidOn, payment.TakesBackId is not null,
                payments.Any(other => other.TakesBackId == payment.Id)) { IsShare = payment.ReceiptId is not null })],
            paper?.Id, invoice.Balance > 0 && invoice.DueDate < today)
        {
            CashRounding = invoice.CashRounding,
            Changes = invoice.Totals().Changes,
            Taxes = invoice.TaxTotals(),
            Left = left is null || (credits.Count > 0 && left.IsNothing) ? null : left,
            PricesIncludeTax = invoice.PricesIncludeTax,
            WrittenOff = invoice.WrittenOff,
            WriteOffs = [.. writeOffs.Where(row => row.InvoiceId == invoice.Id).Select(row => new WriteOffView(
                row.Id, row.Amount, row.Reason, row.On, row.TakesBackId is not null || writeOffs.Any(other => other.TakesBackId == row.Id)))],
            HasEInvoice = paper?.HasEInvoice ?? false,
        };
    }

    private sealed record PaperOfInvoice(Guid Id, Guid InvoiceId, bool HasEInvoice);
}
