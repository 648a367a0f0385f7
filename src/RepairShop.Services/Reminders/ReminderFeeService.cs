using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reminders;

/// <summary>Fees that reminders asked for: taken out of money the customer paid beyond the invoices, or waived. Until then they are
/// told and not booked.</summary>
public sealed class ReminderFeeService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <summary>Told, and neither taken nor waived; oldest first.</summary>
    public Task<List<OpenFee>> OfAsync(Guid customerId, CancellationToken cancel) => ReminderCases.OpenFeesAsync(db, customerId, cancel);

    public async Task<Result> TakeAsync(Guid customerId, Guid letterId, Guid formKey, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        if (await db.CustomerCredits.AnyAsync(row => row.FormKey == formKey, cancel))
            return Result.Done;
        if (await FindAsync(customerId, letterId, cancel) is not var (letter, number, isTaken))
            return new NoSuchReminderLetter();
        var credit = await CreditBook.BalanceAsync(db, customerId, letter.Currency, cancel);
        if (ReminderRules.MayTakeFee(letter, number, isTaken, credit) is { IsDone: false } refused)
            return refused;
        var now = clock.GetUtcNow();
        db.CustomerCredits.Add(new CustomerCredit
        {
            CustomerId = customerId,
            Currency = letter.Currency,
            Amount = -letter.Fee,
            Kind = CreditKind.Fee,
            ReminderLetterId = letter.Id,
            Method = PaymentMethod.CustomerCredit,
            Reference = number,
            On = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(now),
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            FormKey = formKey,
        });
        if (await db.SaveAsync(cancel, ("fee_taken_once", new ReminderFeeTaken(number)), ("credit_not_below_zero", new CreditGone())) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    /// <summary>For good: no later letter asks for it.</summary>
    public async Task<Result> WaiveAsync(Guid customerId, Guid letterId, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        if (await FindAsync(customerId, letterId, cancel) is not var (letter, number, isTaken))
            return new NoSuchReminderLetter();
        if (ReminderRules.MayWaiveFee(letter, number, isTaken) is { IsDone: false } refused)
            return refused;
        (letter.FeeWaivedAt, letter.FeeWaivedBy) = (clock.GetUtcNow(), person.RequiredId);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    private async Task<(ReminderLetter Letter, string Number, bool IsTaken)?> FindAsync(Guid customerId, Guid letterId, CancellationToken cancel)
    {
        if (await db.ReminderLetters.SingleOrDefaultAsync(row => row.Id == letterId && row.CustomerId == customerId, cancel) is not { } letter)
            return null;
        var number = await db.Papers.Where(row => row.Id == letter.PaperId).Select(row => row.Number).SingleAsync(cancel);
        return (letter, number, await db.CustomerCredits.Where(row => row.ReminderLetterId == letterId).SumAsync(row => row.Amount, cancel) != 0);
    }
}
