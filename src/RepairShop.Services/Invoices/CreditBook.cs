using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Services.Database;

namespace RepairShop.Services.Invoices;

/// <summary>What the workshop holds for a customer: its balance, its lock, and its entries that mirror others.</summary>
internal static class CreditBook
{
    /// <summary>Who moves a customer's credit does so one after the other. Rows that only refer to the customer go on being written.</summary>
    /// <returns>False where there is no such customer.</returns>
    public static async Task<bool> LockAsync(ShopDb db, Guid customerId, CancellationToken cancel) =>
        (await db.Database.SqlQuery<Guid>($"select id as \"Value\" from customers where id = {customerId} for no key update").ToListAsync(cancel)).Count == 1;

    public static Task<decimal> BalanceAsync(ShopDb db, Guid customerId, string currency, CancellationToken cancel) =>
        db.CustomerCredits.Where(row => row.CustomerId == customerId && row.Currency == currency).SumAsync(row => row.Amount, cancel);

    /// <param name="receipt"></param>
    /// <param name="rest">Below zero where the receipt takes another back.</param>
    public static CustomerCredit LeftOver(Receipt receipt, decimal rest) => new()
    {
        CustomerId = receipt.CustomerId,
        Currency = receipt.Currency,
        Amount = rest,
        Kind = CreditKind.LeftOver,
        ReceiptId = receipt.Id,
        Method = receipt.Method,
        Reference = receipt.Reference,
        On = receipt.PaidOn,
        RecordedAt = receipt.RecordedAt,
        RecordedBy = receipt.RecordedBy,
    };

    /// <summary>The other side of a payment made with credit, or of an invoice's money kept as credit.</summary>
    public static CustomerCredit Mirror(Payment payment, Invoice invoice) => new()
    {
        CustomerId = invoice.CustomerId,
        Currency = invoice.Currency,
        Amount = -payment.Amount,
        Kind = CreditKind.Invoice,
        PaymentId = payment.Id,
        Method = PaymentMethod.CustomerCredit,
        Reference = invoice.Number!,
        On = payment.PaidOn,
        RecordedAt = payment.RecordedAt,
        RecordedBy = payment.RecordedBy,
    };
}
