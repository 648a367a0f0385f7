using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

public sealed class PaymentTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static async Task<(MoneyBook Book, string Repair, Guid Invoice)> Billed(PostgresServer server)
    {
        var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        await InvoiceTests.Work(book, repair, 60);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id)); // 72.60
        return (book, repair.Number, id);
    }

    private static TypedPayment Some(MoneyBook book, decimal amount, Guid? key = null) =>
        new(amount, PaymentMethod.Card, "slip 12", book.Today, key ?? Guid.NewGuid());

    private static Task<Result> Pay(MoneyBook book, Guid invoice, TypedPayment payment) =>
        book.Do<PaymentService, Result>(service => service.PayAsync(invoice, payment, Ct));

    private static Task<Result> Refund(MoneyBook book, Guid invoice, TypedPayment payment) =>
        book.Do<PaymentService, Result>(service => service.RefundAsync(invoice, payment, Ct));

    private static async Task<InvoiceView> View(MoneyBook book, string repair) =>
        (await book.Money(repair)).Issued.First(invoice => invoice.Kind == InvoiceKind.Invoice);

    [Fact]
    public async Task Part_payments_add_up_until_nothing_is_owed()
    {
        var (book, repair, id) = await Billed(server);
        await using var _ = book;
        MoneyBook.Done(await Pay(book, id, Some(book, 50)));
        Assert.Equal(22.60m, (await View(book, repair)).Balance);
        Assert.Equal(new PaymentAboveBalance(22.61m, 22.60m, "EUR"), (await Pay(book, id, Some(book, 22.61m))).Failure);
        MoneyBook.Done(await Pay(book, id, Some(book, 22.60m)));
        Assert.Equal((72.60m, 0m), ((await View(book, repair)).Paid, (await View(book, repair)).Balance));
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_one_payment()
    {
        var (book, repair, id) = await Billed(server);
        await using var _ = book;
        var form = Some(book, 20);
        var results = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Pay(book, id, form)));
        Assert.All(results, result => Assert.True(result.IsDone));
        Assert.Equal(20, (await View(book, repair)).Paid);
    }

    [Fact]
    public async Task Two_people_can_not_both_take_the_rest()
    {
        var (book, repair, id) = await Billed(server);
        await using var _ = book;
        var results = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Pay(book, id, Some(book, 72.60m))));
        Assert.Single(results, result => result.IsDone);
        Assert.All(results.Where(result => !result.IsDone), result => Assert.Equal(new PaymentAboveBalance(72.60m, 0, "EUR"), result.Failure));
        Assert.Equal(72.60m, (await View(book, repair)).Paid);
    }

    [Fact]
    public async Task A_payment_entered_by_mistake_is_balanced_by_its_opposite()
    {
        var (book, repair, id) = await Billed(server);
        await using var _ = book;
        MoneyBook.Done(await Pay(book, id, Some(book, 50)));
        var payment = Assert.Single((await View(book, repair)).Payments);
        Task<Result> TakeBack() => book.Do<PaymentService, Result>(service => service.TakeBackAsync(id, payment.Id, Guid.NewGuid(), Ct));
        MoneyBook.Done(await TakeBack());
        Assert.Equal([50m, -50m], (await View(book, repair)).Payments.Select(line => line.Amount));
        Assert.Equal(new PaymentTakenBackAlready(), (await TakeBack()).Failure);
    }

    [Fact]
    public async Task A_credit_note_takes_the_whole_invoice_back_and_the_money_can_be_returned()
    {
        var (book, repair, id) = await Billed(server);
        await using var _ = book;
        MoneyBook.Done(await Pay(book, id, Some(book, 50)));
        Task<Result<IssuedPaper>> Credit() =>
            book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, "Wrong address", byMail: true, Ct));
        MoneyBook.Done(await Credit());
        Assert.Equal(new AlreadyCredited("I-2026-0001", "C-2026-0001"), (await Credit()).Failure);
        Assert.Equal(-50, (await View(book, repair)).Balance);
        Assert.Equal(new RefundAboveOwed(60, 50, "EUR"), (await Refund(book, id, Some(book, 60))).Failure);
        MoneyBook.Done(await Refund(book, id, Some(book, 50)));
        Assert.Equal(0, (await View(book, repair)).Balance);
        var json = await book.Db(db => db.Papers.Where(paper => paper.Kind == PaperKind.CreditNote).Select(paper => paper.Facts).SingleAsync(Ct));
        var facts = (InvoiceFacts)PaperJson.Read(PaperKind.CreditNote, json);
        Assert.Equal(("I-2026-0001", "Wrong address", 72.60m), (facts.CreditsNumber, facts.CreditReason, facts.Total));
    }

    [Fact]
    public async Task What_was_credited_may_be_invoiced_anew_under_the_same_approval()
    {
        var (book, repair, id) = await Billed(server);
        await using var _ = book;
        MoneyBook.Done(await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, "Wrong address", false, Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair)));
        Assert.Equal(72.60m, (await book.Money(repair)).Invoiced);
    }
}
