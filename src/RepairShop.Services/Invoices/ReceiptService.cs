using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Banking;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Money of one customer as it was typed: how much came, and how much of it is meant for which invoice.</summary>
/// <param name="Amount">All that came in.</param>
/// <param name="Method">Anything but <see cref="PaymentMethod.CustomerCredit"/>.</param>
/// <param name="Reference"></param>
/// <param name="PaidOn"></param>
/// <param name="Shares">May be empty: then all of it is kept as credit.</param>
/// <param name="KeepsRest">What is not shared out is meant to be kept as credit; else it is refused.</param>
/// <param name="FormKey">The same form sent twice is one receipt.</param>
public sealed record TypedReceipt(
    decimal Amount, PaymentMethod Method, string Reference, DateOnly PaidOn, IReadOnlyList<ReceiptShare> Shares, bool KeepsRest, Guid FormKey)
{
    /// <summary>ISO 4217; null takes the shop's.</summary>
    public string? Currency { get; init; }

    /// <summary>The line of a bank's statement it is booked from.</summary>
    public Guid? BankLineId { get; init; }
}

/// <summary>Money a customer pays once for several invoices, or beyond what is owed; taking it back; and giving credit back.
/// Whatever touches a customer's credit holds the customer's row first and invoices, in the order of their ids, after it.</summary>
public sealed class ReceiptService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <returns>The receipt's id; of the one recorded before where the same form comes again.</returns>
    public async Task<Result<Guid>> ReceiveAsync(Guid customerId, TypedReceipt typed, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        if (await db.Receipts.Where(row => row.FormKey == typed.FormKey).Select(row => (Guid?)row.Id).SingleOrDefaultAsync(cancel) is { } known)
            return known;
        // Who waited for the customer's row is told what happened meanwhile; for another customer's, the database says it.
        if (typed.BankLineId is { } line && await BankBook.BookedAsync(db, line, cancel))
            return new BankLineBooked();
        var invoices = await LockAsync([.. typed.Shares.Select(share => share.InvoiceId)], cancel);
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var now = clock.GetUtcNow();
        var receipt = new Receipt
        {
            CustomerId = customerId,
            Currency = typed.Currency ?? shop.Currency,
            Amount = typed.Amount,
            Method = typed.Method,
            Reference = typed.Reference.Trim(),
            PaidOn = typed.PaidOn,
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            BankLineId = typed.BankLineId,
            FormKey = typed.FormKey,
        };
        if (ReceiptRules.MayReceive(receipt, typed.Shares, invoices, typed.KeepsRest, shop.Today(now)) is { IsDone: false } refused)
            return refused.Failure;
        Add(receipt, [.. typed.Shares.Where(share => share.Amount != 0).Select(share => (share.InvoiceId, share.Amount, (Guid?)null))]);
        if (await db.SaveAsync(cancel, BankBook.Refusals) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return receipt.Id;
    }

    /// <summary>A receipt entered by mistake stays and is balanced by its opposite, share by share, credit too.</summary>
    public async Task<Result> TakeBackAsync(Guid customerId, Guid receiptId, Guid formKey, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        if (await db.Receipts.AnyAsync(row => row.FormKey == formKey, cancel))
            return Result.Done;
        if (await db.Receipts.AsNoTracking().SingleOrDefaultAsync(row => row.Id == receiptId && row.CustomerId == customerId, cancel) is not { } receipt)
            return new NoSuchReceipt();
        var shares = await db.Payments.AsNoTracking().Where(row => row.ReceiptId == receiptId).OrderBy(row => row.Id).ToListAsync(cancel);
        await LockAsync([.. shares.Select(share => share.InvoiceId)], cancel);
        var taken = await db.Receipts.AnyAsync(row => row.TakesBackId == receiptId, cancel);
        var leftOver = await db.CustomerCredits.Where(row => row.ReceiptId == receiptId).SumAsync(row => row.Amount, cancel);
        var credit = await CreditBook.BalanceAsync(db, customerId, receipt.Currency, cancel);
        if (ReceiptRules.MayTakeBack(receipt, taken, leftOver, credit) is { IsDone: false } refused)
            return refused;
        var now = clock.GetUtcNow();
        var counter = new Receipt
        {
            CustomerId = customerId,
            Currency = receipt.Currency,
            Amount = -receipt.Amount,
            Method = receipt.Method,
            Reference = receipt.Reference,
            PaidOn = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(now),
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            TakesBackId = receipt.Id,
            FormKey = formKey,
        };
        Add(counter, [.. shares.Select(share => (share.InvoiceId, -share.Amount, (Guid?)share.Id))]);
        return await FinishAsync(work.CommitAsync, cancel, ("ux_receipts_taken_back_once", new ReceiptTakenBackAlready()));
    }

    /// <summary>Credit that goes back to the customer as money.</summary>
    public async Task<Result> PayBackAsync(Guid customerId, string currency, TypedPayment typed, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        if (await db.CustomerCredits.AnyAsync(row => row.FormKey == typed.FormKey, cancel))
            return Result.Done;
        var now = clock.GetUtcNow();
        var today = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(now);
        var credit = await CreditBook.BalanceAsync(db, customerId, currency, cancel);
        if (ReceiptRules.MayPayBack(typed.Method, typed.Amount, credit, currency, typed.PaidOn, today) is { IsDone: false } refused)
            return refused;
        db.CustomerCredits.Add(new CustomerCredit
        {
            CustomerId = customerId,
            Currency = currency,
            Amount = -typed.Amount,
            Kind = CreditKind.PaidBack,
            Method = typed.Method,
            Reference = typed.Reference.Trim(),
            On = typed.PaidOn,
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            FormKey = typed.FormKey,
        });
        return await FinishAsync(work.CommitAsync, cancel);
    }

    /// <summary>Money given back out of credit, or a fee taken from it, that was entered by mistake.</summary>
    public async Task<Result> UndoAsync(Guid customerId, Guid creditId, Guid formKey, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        if (await db.CustomerCredits.AnyAsync(row => row.FormKey == formKey, cancel))
            return Result.Done;
        if (await db.CustomerCredits.AsNoTracking().SingleOrDefaultAsync(row => row.Id == creditId && row.CustomerId == customerId, cancel) is not { } credit)
            return new NoSuchCredit();
        if (credit.Kind is CreditKind.LeftOver or CreditKind.Invoice || credit.TakesBackId is not null)
            return new CreditEntryOfOther();
        if (await db.CustomerCredits.AnyAsync(row => row.TakesBackId == creditId, cancel))
            return new PaymentTakenBackAlready();
        var now = clock.GetUtcNow();
        db.CustomerCredits.Add(new CustomerCredit
        {
            CustomerId = customerId,
            Currency = credit.Currency,
            Amount = -credit.Amount,
            Kind = credit.Kind,
            ReminderLetterId = credit.ReminderLetterId,
            Method = credit.Method,
            Reference = credit.Reference,
            On = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(now),
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            TakesBackId = credit.Id,
            FormKey = formKey,
        });
        return await FinishAsync(work.CommitAsync, cancel);
    }

    private void Add(Receipt receipt, List<(Guid InvoiceId, decimal Amount, Guid? TakesBackId)> shares)
    {
        db.Receipts.Add(receipt);
        db.Payments.AddRange(shares.Select(share => new Payment
        {
            InvoiceId = share.InvoiceId,
            Amount = share.Amount,
            Method = receipt.Method,
            Reference = receipt.Reference,
            PaidOn = receipt.PaidOn,
            RecordedAt = receipt.RecordedAt,
            RecordedBy = receipt.RecordedBy,
            ReceiptId = receipt.Id,
            TakesBackId = share.TakesBackId,
            FormKey = Guid.CreateVersion7(),
        }));
        if (receipt.Amount - shares.Sum(share => share.Amount) is var rest && rest != 0)
            db.CustomerCredits.Add(CreditBook.LeftOver(receipt, rest));
    }

    private async Task<Result> FinishAsync(Func<CancellationToken, Task> commit, CancellationToken cancel, params (string Constraint, Failure Failure)[] refusals)
    {
        if (await db.SaveAsync(cancel, [.. refusals, ("credit_not_below_zero", new CreditGone())]) is { IsDone: false } unsaved)
            return unsaved;
        await commit(cancel);
        return Result.Done;
    }

    private Task<List<Invoice>> LockAsync(Guid[] ids, CancellationToken cancel) =>
        db.Invoices.FromSql($"select i.*, i.xmin from invoices i where i.id = any({ids}) order by i.id for update").AsNoTracking().ToListAsync(cancel);
}
