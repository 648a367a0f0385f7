using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Database;

namespace RepairShop.Services.Invoices;

/// <summary>All that ever moved what a customer owes, read from where each of it was recorded.</summary>
internal static class AccountEvents
{
    public static async Task<(List<AccountEvent> Events, Dictionary<Guid, DateOnly?> Due)> ReadAsync(ShopDb db, Guid customerId, string currency, CancellationToken cancel)
    {
        var papers = await db.Invoices.AsNoTracking().Where(row => row.CustomerId == customerId && row.Currency == currency && row.IssuedAt != null).ToListAsync(cancel);
        var numbers = papers.ToDictionary(paper => paper.Id, paper => paper.Number!);
        var ids = numbers.Keys.ToList();
        var events = papers.ConvertAll(OfPaper);
        events.AddRange((await db.Payments.AsNoTracking().Where(row => ids.Contains(row.InvoiceId)).ToListAsync(cancel)).Select(row => OfPayment(row, numbers[row.InvoiceId])));
        events.AddRange((await db.Receipts.AsNoTracking().Where(row => row.CustomerId == customerId && row.Currency == currency).ToListAsync(cancel)).Select(row =>
            new AccountEvent(row.PaidOn, row.RecordedAt, KindOf(row.Amount, row.TakesBackId), null, "", row.Reference, -row.Amount, 0)));
        events.AddRange((await db.WriteOffs.AsNoTracking().Where(row => ids.Contains(row.InvoiceId)).ToListAsync(cancel)).Select(row => new AccountEvent(
            row.On, row.RecordedAt, row.Amount > 0 ? StatementLineKind.WriteOff : StatementLineKind.WriteOffUndone, row.InvoiceId, numbers[row.InvoiceId], "", -row.Amount, -row.Amount)));
        // What was left over is in its receipt, what was used on invoices is in their payments.
        var credits = await db.CustomerCredits.AsNoTracking()
            .Where(row => row.CustomerId == customerId && row.Currency == currency && (row.Kind == CreditKind.PaidBack || row.Kind == CreditKind.Fee)).ToListAsync(cancel);
        events.AddRange(credits.Select(row => new AccountEvent(
            row.On, row.RecordedAt, row.Kind == CreditKind.Fee ? StatementLineKind.Fee : StatementLineKind.GivenBack, null, "", row.Reference, -row.Amount, 0)));
        return (events, papers.Where(paper => paper.Kind == InvoiceKind.Invoice).ToDictionary(paper => paper.Id, paper => paper.DueDate));
    }

    private static AccountEvent OfPaper(Invoice paper) => paper.Kind == InvoiceKind.Invoice
        ? new AccountEvent(paper.IssueDate!.Value, paper.IssuedAt!.Value, StatementLineKind.Invoice, paper.Id, paper.Number!, "", paper.Payable, paper.Payable)
        : new AccountEvent(paper.IssueDate!.Value, paper.IssuedAt!.Value, StatementLineKind.CreditNote, paper.CreditsId, paper.Number!, "", -paper.Payable, -paper.Payable);

    private static AccountEvent OfPayment(Payment payment, string number)
    {
        var isMoneyOfItsOwn = payment.ReceiptId is null && payment.Method != PaymentMethod.CustomerCredit;
        return new AccountEvent(
            payment.PaidOn, payment.RecordedAt, isMoneyOfItsOwn ? KindOf(payment.Amount, payment.TakesBackId) : null, payment.InvoiceId, number, payment.Reference,
            isMoneyOfItsOwn ? -payment.Amount : 0, -payment.Amount);
    }

    private static StatementLineKind KindOf(decimal amount, Guid? takesBack) => takesBack is not null ? StatementLineKind.PaymentTakenBack
        : amount > 0 ? StatementLineKind.Payment : StatementLineKind.GivenBack;
}
