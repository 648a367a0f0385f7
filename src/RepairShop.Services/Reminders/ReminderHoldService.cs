using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reminders;

/// <summary>Keeps reminders of one invoice back for a time, for a reason.</summary>
public sealed class ReminderHoldService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <param name="invoiceId"></param>
    /// <param name="until">From this day on it may be reminded of again.</param>
    /// <param name="reason"></param>
    /// <param name="cancel"></param>
    public async Task<Result> HoldAsync(Guid invoiceId, DateOnly? until, string reason, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await InvoiceLock.TakeAsync(db, invoiceId, cancel) is not { } invoice)
            return new NoSuchInvoice();
        if (ReminderRules.MayHold(invoice, until, reason, await TodayAsync(cancel)) is { IsDone: false } refused)
            return refused;
        return await EnterAsync(new ReminderHold { InvoiceId = invoiceId, Until = until, Reason = reason.Trim() }, work.CommitAsync, cancel);
    }

    public async Task<Result> LiftAsync(Guid invoiceId, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await InvoiceLock.TakeAsync(db, invoiceId, cancel) is not { } invoice)
            return new NoSuchInvoice();
        var hold = (await ReminderCases.HoldsAsync(db, [invoiceId], cancel)).GetValueOrDefault(invoiceId);
        if (hold?.Until is not { } until || until <= await TodayAsync(cancel))
            return new NothingOnHold(invoice.Number ?? "");
        return await EnterAsync(new ReminderHold { InvoiceId = invoiceId }, work.CommitAsync, cancel);
    }

    private async Task<DateOnly> TodayAsync(CancellationToken cancel) => (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(clock.GetUtcNow());

    private async Task<Result> EnterAsync(ReminderHold entry, Func<CancellationToken, Task> commit, CancellationToken cancel)
    {
        (entry.RecordedAt, entry.RecordedBy) = (clock.GetUtcNow(), person.RequiredId);
        db.ReminderHolds.Add(entry);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await commit(cancel);
        return Result.Done;
    }
}
