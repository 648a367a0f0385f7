using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;

namespace RepairShop.Services.Tests.Invoices;

/// <summary>One customer who owes several invoices, each of another hour at 60.00 and 12.60 tax.</summary>
internal sealed class Debtor(MoneyBook book, Guid customer, IReadOnlyList<Guid> invoices) : IAsyncDisposable
{
    public MoneyBook Book => book;

    public Guid Customer => customer;

    public IReadOnlyList<Guid> Invoices => invoices;

    private static CancellationToken Ct => MoneyBook.Cancel;

    public static async Task<Debtor> With(PostgresServer server, params int[] minutes)
    {
        var book = await MoneyBook.OpenAsync(server);
        Guid? customer = null;
        var invoices = new List<Guid>();
        foreach (var worked in minutes)
        {
            var repair = await book.Repair(preApproved: 5000);
            customer ??= repair.CustomerId;
            await book.Db(db => db.Repairs.Where(row => row.Id == repair.Id).ExecuteUpdateAsync(set => set.SetProperty(row => row.CustomerId, customer), Ct));
            await InvoiceTests.Work(book, repair, worked);
            var id = await InvoiceTests.Begin(book, repair.Number);
            MoneyBook.Done(await InvoiceTests.Issue(book, id));
            invoices.Add(id);
            book.Clock.Advance(TimeSpan.FromDays(1));
        }
        return new Debtor(book, customer!.Value, invoices);
    }

    public TypedReceipt Money(decimal amount, params decimal[] shares) => new(
        amount, PaymentMethod.BankTransfer, "statement 7", book.Today, [.. shares.Zip(invoices, (share, id) => new ReceiptShare(id, share)).Where(share => share.Amount != 0)], true, Guid.NewGuid());

    public Task<Result<Guid>> Receive(TypedReceipt money) => book.Do<ReceiptService, Result<Guid>>(service => service.ReceiveAsync(customer, money, Ct));

    public Task<Result> TakeBack(Guid receipt, Guid? form = null) =>
        book.Do<ReceiptService, Result>(service => service.TakeBackAsync(customer, receipt, form ?? Guid.NewGuid(), Ct));

    public Task<Result> PayBack(decimal amount, Guid? form = null) => book.Do<ReceiptService, Result>(service =>
        service.PayBackAsync(customer, "EUR", new TypedPayment(amount, PaymentMethod.Cash, "", book.Today, form ?? Guid.NewGuid()), Ct));

    public Task<Result> UseCredit(int invoice, decimal amount, Guid? form = null) => book.Do<PaymentService, Result>(service =>
        service.PayAsync(invoices[invoice], new TypedPayment(amount, PaymentMethod.CustomerCredit, "", book.Today, form ?? Guid.NewGuid()), Ct));

    public Task<decimal> Credit() => book.Db(db => db.CustomerCredits.Where(row => row.CustomerId == customer).SumAsync(row => row.Amount, Ct));

    public async Task<IReadOnlyList<decimal>> Owed()
    {
        var rows = await book.Db(db => db.Invoices.AsNoTracking().ToListAsync(Ct));
        return [.. invoices.Select(id => rows.Single(row => row.Id == id).Balance)];
    }

    /// <summary>Receivables and customers' credit in the journal are what invoices and customers say.</summary>
    public async Task JournalAgrees()
    {
        var balances = await JournalTests.Balances(book);
        var owed = (await book.Db(db => db.Invoices.AsNoTracking().ToListAsync(Ct))).Sum(row => row.Balance);
        Xunit.Assert.Equal(owed, balances.GetValueOrDefault(Domain.Ledger.LedgerAccount.Receivables));
        Xunit.Assert.Equal(-await Credit(), balances.GetValueOrDefault(Domain.Ledger.LedgerAccount.CustomerCredit));
    }

    public ValueTask DisposeAsync() => book.DisposeAsync();
}
