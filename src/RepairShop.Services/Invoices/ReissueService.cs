using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Invoices;

/// <summary>Writes an invoice anew that was taken back as a whole: a draft with its lines, discounts and tax, to be put right and issued.</summary>
public sealed class ReissueService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <summary>Begins the one draft a repair may have. It is made out to the repair's customer of today, who may be another by now.</summary>
    public async Task<Result<Guid>> BeginAsync(Guid invoiceId, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        var number = await db.Invoices.Where(row => row.Id == invoiceId).Join(db.Repairs, row => row.RepairId, repair => repair.Id, (_, repair) => repair.Number).SingleOrDefaultAsync(cancel);
        if (number is null || await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new NoSuchInvoice();
        var all = await db.Invoices.AsNoTracking().Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes).AsSplitQuery()
            .Where(row => row.RepairId == file.Repair.Id).ToListAsync(cancel);
        var old = all.Single(row => row.Id == invoiceId);
        if (InvoiceRules.MayReissue(old, [.. all.Where(row => row.CreditsId == invoiceId && row.IssuedAt is not null)]) is { IsDone: false } refused)
            return refused.Failure;
        if (all.Any(row => row.IssuedAt is null))
            return new InvoiceDraftWaiting();
        var draft = CopyOf(old);
        (draft.CustomerId, draft.CreatedAt, draft.CreatedBy) = (file.Customer.Id, clock.GetUtcNow(), person.RequiredId);
        db.Invoices.Add(draft);
        await InvoiceService.TakeOffDepositsAsync(db, draft, cancel);
        InvoiceService.Sum(draft);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return draft.Id;
    }

    /// <summary>What was decided then, prices, rates and rounding; deposits are taken off anew.</summary>
    private static Invoice CopyOf(Invoice old) => new()
    {
        RepairId = old.RepairId,
        Kind = InvoiceKind.Invoice,
        Basis = old.Basis,
        SupplyDate = old.SupplyDate,
        Currency = old.Currency,
        TaxRegistered = old.TaxRegistered,
        PricesIncludeTax = old.PricesIncludeTax,
        TaxProfileId = old.TaxProfileId,
        Treatment = old.Treatment,
        TaxRounding = old.TaxRounding,
        CashStep = old.CashStep,
        Note = old.Note,
        Lines = [.. old.Lines.Where(line => line.DepositId is null).OrderBy(line => line.Position).Select((line, index) => new InvoiceLine
        {
            Position = index + 1,
            Kind = line.Kind,
            Text = line.Text,
            Quantity = line.Quantity,
            Unit = line.Unit,
            UnitPrice = line.UnitPrice,
            TaxName = line.TaxName,
            TaxPercent = line.TaxPercent,
            TaxCategory = line.TaxCategory,
            ChangePercent = line.ChangePercent,
            ChangeAmount = line.ChangeAmount,
        })],
        Changes = [.. old.Changes.OrderBy(change => change.Position).Select(change => new InvoiceChange
        {
            Position = change.Position,
            Text = change.Text,
            Percent = change.Percent,
            Amount = change.Amount,
        })],
    };
}
