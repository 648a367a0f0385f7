using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

/// <summary>An invoice that was taken back as a whole is written anew.</summary>
public sealed class ReissueTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Result<Guid>> Reissue(MoneyBook book, Guid id) => book.Do<ReissueService, Result<Guid>>(service => service.BeginAsync(id, Ct));

    private static Task<Result<IssuedPaper>> Credit(MoneyBook book, Guid id, CreditRequest? request = null) =>
        book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, request ?? CreditRequest.Everything, "Wrong address", false, Ct));

    private static Task<Invoice> Read(MoneyBook book, Guid id) => book.Db(db => db.Invoices.AsNoTracking().Include(row => row.Lines).Include(row => row.Changes).SingleAsync(row => row.Id == id, Ct));

    /// <summary>An hour at 60.00 less 10 %, and 5.00 of goodwill on the whole.</summary>
    private static async Task<(MoneyBook Book, string Repair, Guid Invoice)> Discounted(PostgresServer server)
    {
        var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 100);
        await InvoiceTests.Work(book, repair, 60);
        var id = await InvoiceTests.Begin(book, repair.Number);
        var form = (await book.Money(repair.Number)).Draft!;
        var draft = form.Draft with
        {
            Note = "With thanks for your patience",
            Lines = [form.Draft.Lines[0] with { Change = new PriceChange(-10, 0) }],
            Changes = [new PaperChange("Goodwill", new PriceChange(null, -5))],
        };
        MoneyBook.Done(await book.Do<InvoiceService, Result>(service => service.SaveDraftAsync(id, draft, form.Version, Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        return (book, repair.Number, id);
    }

    [Fact]
    public async Task The_draft_has_the_same_lines_discounts_and_totals_and_is_issued_under_the_same_approval()
    {
        var (book, repair, id) = await Discounted(server);
        await using var _ = book;
        Assert.Equal(new NotTakenBack("I-2026-0001"), (await Reissue(book, id)).Failure);
        MoneyBook.Done(await Credit(book, id));
        book.Clock.Advance(TimeSpan.FromDays(3));
        await book.Db(db => db.Shop.ExecuteUpdateAsync(set => set.SetProperty(row => row.LabourRate, 99m), Ct)); // today's prices are not those of then
        var anew = MoneyBook.Done(await Reissue(book, id));
        var (old, draft) = (await Read(book, id), await Read(book, anew));
        Assert.Equal((old.Net, old.Tax, old.Gross, old.Note, old.SupplyDate, old.Basis), (draft.Net, draft.Tax, draft.Gross, draft.Note, draft.SupplyDate, draft.Basis));
        Assert.Equal((LineKind.Labour, 60m, (decimal?)-10, 21m), draft.Lines.Select(line => (line.Kind, line.UnitPrice, line.ChangePercent, line.TaxPercent)).Single());
        Assert.Equal(("Goodwill", -5m), draft.Changes.Select(change => (change.Text, change.Amount)).Single());
        Assert.Equal((null, null, 0m, 0m), (draft.Number, draft.IssuedAt, draft.Paid, draft.Credited));
        Assert.Equal(new InvoiceDraftWaiting(), (await Reissue(book, id)).Failure);
        Assert.Equal("I-2026-0002", MoneyBook.Done(await InvoiceTests.Issue(book, anew)).Number);
        Assert.Equal(old.Payable, (await book.Money(repair)).Invoiced);
    }

    [Fact]
    public async Task What_was_credited_in_part_or_is_a_credit_note_is_not_written_anew()
    {
        var (book, _, id) = await Discounted(server);
        await using var __ = book;
        var line = (await Read(book, id)).Lines.Single();
        MoneyBook.Done(await Credit(book, id, new CreditRequest([new CreditedLine(line.Id, 0.5m)], [])));
        Assert.Equal(new NotTakenBack("I-2026-0001"), (await Reissue(book, id)).Failure);
        MoneyBook.Done(await Credit(book, id)); // what is left of it
        var note = await book.Db(db => db.Invoices.Where(row => row.Kind == InvoiceKind.CreditNote).OrderBy(row => row.Number).FirstAsync(Ct));
        Assert.Equal(new CreditOfCredit("C-2026-0001"), (await Reissue(book, note.Id)).Failure);
        Assert.IsType<NoSuchInvoice>((await Reissue(book, Guid.NewGuid())).Failure);
        MoneyBook.Done(await Reissue(book, id));
    }

    [Fact]
    public async Task It_is_made_out_to_the_repairs_customer_of_today_and_takes_deposits_off_again()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 145.20m);
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, (await book.Money(repair.Number)).Draft!.Id));
        await InvoiceTests.Work(book, repair, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        MoneyBook.Done(await Credit(book, id));
        var other = (await book.Repair(name: "Ines Halloway")).CustomerId;
        await book.Db(db => db.Repairs.Where(row => row.Id == repair.Id).ExecuteUpdateAsync(set => set.SetProperty(row => row.CustomerId, other), Ct));
        var draft = await Read(book, MoneyBook.Done(await Reissue(book, id)));
        Assert.Equal((other, 70m, 84.70m), (draft.CustomerId, draft.Net, draft.Gross));
        Assert.Equal((1, -1m), (draft.Lines.Count(line => line.DepositId is not null), draft.Lines.Single(line => line.DepositId is not null).Quantity));
    }

    [Fact]
    public async Task Two_clicks_at_once_begin_one_draft()
    {
        var (book, _, id) = await Discounted(server);
        await using var __ = book;
        MoneyBook.Done(await Credit(book, id));
        var results = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Reissue(book, id)));
        Assert.Single(results, result => result.IsDone);
        Assert.All(results.Where(result => !result.IsDone), result => Assert.IsType<InvoiceDraftWaiting>(result.Failure));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Its_deposit_is_taken_off_again_though_it_was_taken_back_in_parts(bool byAmount)
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 145.20m);
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, (await book.Money(repair.Number)).Draft!.Id));
        await InvoiceTests.Work(book, repair, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id)); // 120 − 50
        var line = (await Read(book, id)).Lines.Single(one => one.DepositId is null);
        MoneyBook.Done(await Credit(book, id, new CreditRequest([new CreditedLine(line.Id, 0.5m)], [])));
        var rest = new CreditRequest([], [new CreditedAmount(new TaxKey(TaxCategory.Standard, "Standard", 21), 40)]);
        MoneyBook.Done(await Credit(book, id, byAmount ? rest : null));
        Assert.Equal((60.50m, -50m), ((await book.Money(repair.Number)).Invoiced, (await JournalTests.Balances(book))[LedgerAccount.Deposits]));
        var anew = MoneyBook.Done(await Reissue(book, id));
        Assert.Equal(84.70m, (await Read(book, anew)).Gross);
        MoneyBook.Done(await InvoiceTests.Issue(book, anew));
        Assert.False((await JournalTests.Balances(book)).ContainsKey(LedgerAccount.Deposits));
    }
}
