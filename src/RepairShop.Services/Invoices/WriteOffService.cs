using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Giving up what is not to be had, and taking that back when the customer pays after all.</summary>
public sealed class WriteOffService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    public async Task<Result> WriteOffAsync(Guid invoiceId, decimal amount, string reason, Guid formKey, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await InvoiceLock.TakeAsync(db, invoiceId, cancel) is not { } invoice)
            return new NoSuchInvoice();
        if (await db.WriteOffs.AnyAsync(row => row.FormKey == formKey, cancel))
            return Result.Done;
        if (InvoiceRules.MayWriteOff(invoice, amount, reason) is { IsDone: false } refused)
            return refused;
        return await EnterAsync(new WriteOff { InvoiceId = invoiceId, Amount = amount, Reason = reason.Trim(), FormKey = formKey }, work.CommitAsync, cancel);
    }

    /// <summary>By a counter-entry: the invoice is owed again.</summary>
    public async Task<Result> UndoAsync(Guid invoiceId, Guid writeOffId, Guid formKey, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await InvoiceLock.TakeAsync(db, invoiceId, cancel) is null)
            return new NoSuchInvoice();
        if (await db.WriteOffs.AnyAsync(row => row.FormKey == formKey, cancel))
            return Result.Done;
        if (await db.WriteOffs.AsNoTracking().SingleOrDefaultAsync(row => row.Id == writeOffId && row.InvoiceId == invoiceId, cancel) is not { } writeOff)
            return new NoSuchWriteOff();
        if (InvoiceRules.MayUndo(writeOff, await db.WriteOffs.AnyAsync(row => row.TakesBackId == writeOffId, cancel)) is { IsDone: false } refused)
            return refused;
        return await EnterAsync(
            new WriteOff { InvoiceId = invoiceId, Amount = -writeOff.Amount, Reason = writeOff.Reason, TakesBackId = writeOff.Id, FormKey = formKey }, work.CommitAsync, cancel);
    }

    private async Task<Result> EnterAsync(WriteOff entry, Func<CancellationToken, Task> commit, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        (entry.On, entry.RecordedAt, entry.RecordedBy) = ((await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(now), now, person.RequiredId);
        db.WriteOffs.Add(entry);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await commit(cancel);
        return Result.Done;
    }
}
