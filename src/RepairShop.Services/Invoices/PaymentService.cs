using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Money as it was typed into a form.</summary>
/// <param name="FormKey">Made with the form: the same form sent twice is one payment.</param>
public sealed record TypedPayment(decimal Amount, PaymentMethod Method, string Reference, DateOnly PaidOn, Guid FormKey);

/// <summary>Money in, money back, and putting a mistake right by a counter-entry. The method
/// <see cref="PaymentMethod.CustomerCredit"/> pays with what the customer has with the workshop, or keeps there what would go back;
/// it always counts for today.</summary>
public sealed class PaymentService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    public Task<Result> PayAsync(Guid invoiceId, TypedPayment typed, CancellationToken cancel) =>
        EnterAsync(invoiceId, typed, sign: 1, InvoiceRules.MayPay, cancel);

    /// <param name="invoiceId"></param>
    /// <param name="typed">With the positive amount that goes back to the customer.</param>
    /// <param name="cancel"></param>
    public Task<Result> RefundAsync(Guid invoiceId, TypedPayment typed, CancellationToken cancel) =>
        EnterAsync(invoiceId, typed, sign: -1, InvoiceRules.MayRefund, cancel);

    /// <summary>A payment entered by mistake stays and is balanced by its opposite.</summary>
    public async Task<Result> TakeBackAsync(Guid invoiceId, Guid paymentId, Guid formKey, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await db.Payments.AsNoTracking().SingleOrDefaultAsync(row => row.Id == paymentId && row.InvoiceId == invoiceId, cancel) is not { } payment)
            return new NoSuchPayment();
        if (await LockAsync(invoiceId, payment.Method, cancel) is not { } invoice)
            return new NoSuchInvoice();
        if (await db.Payments.AnyAsync(row => row.FormKey == formKey, cancel))
            return Result.Done;
        var taken = await db.Payments.AnyAsync(row => row.TakesBackId == paymentId, cancel);
        if (InvoiceRules.MayTakeBack(invoice, payment, taken) is { IsDone: false } refused)
            return refused;
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var now = clock.GetUtcNow();
        Add(invoice, new Payment
        {
            InvoiceId = invoiceId,
            Amount = -payment.Amount,
            Method = payment.Method,
            Reference = payment.Reference,
            PaidOn = shop.Today(now),
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            TakesBackId = payment.Id,
            FormKey = formKey,
        });
        if (await db.SaveAsync(
            cancel, ("ux_payments_taken_back_once", new PaymentTakenBackAlready()), ("credit_not_below_zero", new CreditGone()),
            ("ck_invoices_written_off", new WrittenOffMeanwhile(invoice.WrittenOff, invoice.Currency))) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    private async Task<Result> EnterAsync(
        Guid invoiceId, TypedPayment typed, int sign, Func<Invoice, decimal, DateOnly, DateOnly, Result> rule, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await LockAsync(invoiceId, typed.Method, cancel) is not { } invoice)
            return new NoSuchInvoice();
        if (await db.Payments.AnyAsync(row => row.FormKey == typed.FormKey, cancel))
            return Result.Done; // the same form a second time: what it asked for is in the book
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var now = clock.GetUtcNow();
        if (rule(invoice, typed.Amount, typed.PaidOn, shop.Today(now)) is { IsDone: false } refused)
            return refused;
        var isCredit = typed.Method == PaymentMethod.CustomerCredit;
        if (isCredit && sign > 0
            && ReceiptRules.MayUseCredit(typed.Amount, await CreditBook.BalanceAsync(db, invoice.CustomerId, invoice.Currency, cancel), invoice.Currency)
                is { IsDone: false } tooMuch)
            return tooMuch;
        Add(invoice, new Payment
        {
            InvoiceId = invoiceId,
            Amount = sign * typed.Amount,
            Method = typed.Method,
            Reference = typed.Reference.Trim(),
            PaidOn = isCredit ? shop.Today(now) : typed.PaidOn,
            RecordedAt = now,
            RecordedBy = person.RequiredId,
            FormKey = typed.FormKey,
        });
        if (await db.SaveAsync(cancel, ("credit_not_below_zero", new CreditGone())) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    private void Add(Invoice invoice, Payment payment)
    {
        db.Payments.Add(payment);
        if (payment.Method == PaymentMethod.CustomerCredit)
            db.CustomerCredits.Add(CreditBook.Mirror(payment, invoice));
    }

    /// <summary>Payments of one invoice are entered one after the other, so that two people can't both pay the rest; where they
    /// move the customer's credit, that is held first.</summary>
    private async Task<Invoice?> LockAsync(Guid id, PaymentMethod method, CancellationToken cancel)
    {
        if (method == PaymentMethod.CustomerCredit
            && await db.Invoices.Where(row => row.Id == id).Select(row => (Guid?)row.CustomerId).SingleOrDefaultAsync(cancel) is { } customer)
            await CreditBook.LockAsync(db, customer, cancel);
        return await InvoiceLock.TakeAsync(db, id, cancel);
    }
}
