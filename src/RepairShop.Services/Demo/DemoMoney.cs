using RepairShop.Domain.Invoices;
using RepairShop.Services.Invoices;

namespace RepairShop.Services.Demo;

/// <summary>A customer who transferred more than was owed, and keeps it here for the next repair.</summary>
internal static class DemoMoney
{
    public static Task AddAsync(DemoBook book, Guid customer) => book.DoAsync<ReceiptService, Guid>("counter", receipts => receipts.ReceiveAsync(customer, new TypedReceipt(
        24.50m, PaymentMethod.BankTransfer, "Transfer, 24.50 too much", DateOnly.FromDateTime(book.Now.UtcDateTime), [], true, Guid.CreateVersion7()), book.Cancel));
}
