using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Estimates;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

public sealed class InvoiceTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    internal static async Task<Guid> Begin(MoneyBook book, string number, InvoiceBasis basis = InvoiceBasis.AsWorked) =>
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginAsync(number, basis, Ct)));

    internal static Task<Result<IssuedPaper>> Issue(MoneyBook book, Guid id, bool byMail = false) =>
        book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.IssueAsync(id, byMail, Ct));

    internal static async Task Work(MoneyBook book, Repair repair, int minutes) => await book.Db(async db =>
    {
        db.LabourEntries.Add(new LabourEntry
        {
            RepairId = repair.Id,
            WorkerId = book.Person,
            WorkDate = book.Today,
            Minutes = minutes,
            CreatedAt = book.Clock.GetUtcNow(),
        });
        await db.SaveChangesAsync(Ct);
    });

    [Fact]
    public async Task As_worked_bills_rounded_hours_and_is_stopped_at_the_approved_amount_until_consent_is_recorded()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.LabourRounding = LabourRounding.UpToFifteenMinutes);
        var repair = await book.Repair();
        await book.Sent(repair.Number);
        MoneyBook.Done(await book.Answer(repair.Number, EstimateAnswer.Approved)); // up to 217.80
        await Work(book, repair, 190); // 3 h 15 min when rounded: 195.00 and 40.95 tax
        var id = await Begin(book, repair.Number);
        Assert.Equal(new AboveApproved(235.95m, 0, 217.80m, "EUR"), (await Issue(book, id)).Failure);
        Assert.Equal(0, await book.Db(db => db.NumberSeries.CountAsync(Ct)));
        book.Clock.Advance(TimeSpan.FromHours(1));
        MoneyBook.Done(await book.Do<EstimateAnswerService, Result>(service =>
            service.ConsentAsync(repair.Number, 240, "Łukasz Example", AnswerWay.Phone, "It took longer", Ct)));
        Assert.Equal("I-2026-0001", MoneyBook.Done(await Issue(book, id)).Number);
        var invoice = Assert.Single((await book.Money(repair.Number)).Issued);
        Assert.Equal((195m, 40.95m, 235.95m), (invoice.Net, invoice.Tax, invoice.Gross));
    }

    [Fact]
    public async Task As_estimated_takes_the_offers_lines_even_after_the_shops_rates_have_changed()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair();
        await book.Sent(repair.Number);
        MoneyBook.Done(await book.Answer(repair.Number, EstimateAnswer.Approved));
        await Work(book, repair, 150);
        await book.Db(async db =>
        {
            (await db.Shop.SingleAsync(Ct)).LabourRate = 95;
            (await db.TaxRates.SingleAsync(Ct)).RetiredAt = book.Clock.GetUtcNow();
            db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 23, IsDefault = true });
            await db.SaveChangesAsync(Ct);
        });
        MoneyBook.Done(await Issue(book, await Begin(book, repair.Number, InvoiceBasis.AsEstimated)));
        var invoice = Assert.Single((await book.Money(repair.Number)).Issued);
        Assert.Equal((150m, 31.50m, 181.50m), (invoice.Net, invoice.Tax, invoice.Gross));
    }

    [Fact]
    public async Task Changing_a_rate_later_leaves_what_was_issued_as_it_was()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        await Work(book, repair, 60);
        MoneyBook.Done(await Issue(book, await Begin(book, repair.Number)));
        var before = await book.Db(db => db.Papers.AsNoTracking().SingleAsync(Ct));
        await book.Db(async db =>
        {
            var shop = await db.Shop.SingleAsync(Ct);
            (shop.LabourRate, shop.Name, shop.PricesIncludeTax) = (99, "Other Name", true);
            (await db.TaxRates.SingleAsync(Ct)).Percent = 5;
            await db.SaveChangesAsync(Ct);
        });
        var invoice = Assert.Single((await book.Money(repair.Number)).Issued);
        Assert.Equal((60m, 12.60m, 72.60m), (invoice.Net, invoice.Tax, invoice.Gross));
        var after = await book.Db(db => db.Papers.AsNoTracking().SingleAsync(Ct));
        Assert.Equal((before.FileHash, before.Facts), (after.FileHash, after.Facts));
    }

    [Fact]
    public async Task A_declined_offer_bills_its_strip_down_charge_and_nothing_more()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair();
        await book.Sent(repair.Number);
        Assert.Equal(new EstimateNotDeclined(), (await book.Do<InvoiceService, Result<Guid>>(
            service => service.BeginAsync(repair.Number, InvoiceBasis.StripDownCharge, Ct))).Failure);
        MoneyBook.Done(await book.Answer(repair.Number, EstimateAnswer.Declined));
        MoneyBook.Done(await Issue(book, await Begin(book, repair.Number, InvoiceBasis.StripDownCharge)));
        Assert.Equal(30.25m, Assert.Single((await book.Money(repair.Number)).Issued).Gross);
        await Work(book, repair, 60);
        Assert.IsType<AboveApproved>((await Issue(book, await Begin(book, repair.Number))).Failure);
    }

    [Fact]
    public async Task Two_invoices_of_one_repair_together_stay_under_what_was_approved()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 100);
        await Work(book, repair, 60);
        MoneyBook.Done(await Issue(book, await Begin(book, repair.Number)));
        var second = await Begin(book, repair.Number);
        Assert.Equal(new AboveApproved(72.60m, 72.60m, 100, "EUR"), (await Issue(book, second)).Failure);
    }

    [Fact]
    public async Task A_warranty_repair_is_invoiced_with_nothing_to_pay()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair();
        await Work(book, repair, 60);
        var id = await Begin(book, repair.Number);
        var draft = (await book.Money(repair.Number)).Draft!;
        MoneyBook.Done(await book.Do<InvoiceService, Result>(service => service.SaveDraftAsync(
            id, draft.Draft with { Note = "Under warranty", Lines = [draft.Draft.Lines[0] with { UnitPrice = 0 }] }, draft.Version, Ct)));
        MoneyBook.Done(await Issue(book, id));
        Assert.Equal((0m, 0m), (Assert.Single((await book.Money(repair.Number)).Issued).Gross, (await book.Money(repair.Number)).Balance));
    }

    [Fact]
    public async Task Pressing_issue_twice_issues_once()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        await Work(book, repair, 60);
        var id = await Begin(book, repair.Number);
        var results = await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => Issue(book, id, byMail: true)));
        Assert.Single(results, result => result.IsDone);
        Assert.Equal(4, results.Count(result => result.Failure == new InvoiceAlreadyIssued("I-2026-0001")));
        Assert.Equal((1, 1), await book.Db(async db => (await db.Papers.CountAsync(Ct), await db.Outbox.CountAsync(Ct))));
    }

    [Fact]
    public async Task What_is_issued_can_not_be_changed_not_even_in_the_database()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        await Work(book, repair, 60);
        var id = await Begin(book, repair.Number);
        var draft = (await book.Money(repair.Number)).Draft!;
        MoneyBook.Done(await Issue(book, id));
        Assert.Equal(new InvoiceAlreadyIssued("I-2026-0001"), (await book.Do<InvoiceService, Result>(
            service => service.SaveDraftAsync(id, draft.Draft, draft.Version, Ct))).Failure);
        Assert.Equal(new InvoiceAlreadyIssued("I-2026-0001"), (await book.Do<InvoiceService, Result>(
            service => service.DiscardDraftAsync(id, Ct))).Failure);
        foreach (var sql in new[]
        {
            "update invoices set gross = 1", "delete from invoices", "update invoice_lines set unit_price = 1", "delete from invoice_lines",
            "update invoices set paid = 5", "update papers set file_hash = ''", "delete from papers",
        })
        {
            var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => book.Db(db => db.Database.ExecuteSqlRawAsync(sql, Ct)));
            Assert.Equal("23001", refused.SqlState); // restrict_violation, raised by our own triggers
        }
    }

    [Theory]
    [InlineData("JPY", 60, 12.6, 73)] // 60 + 12.6 → 13
    [InlineData("KWD", 60, 12.6, 72.6)]
    public async Task Currencies_with_other_digits_are_rounded_to_their_own_unit(string currency, decimal net, decimal exactTax, decimal gross)
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.Currency = currency);
        var repair = await book.Repair(preApproved: 5000);
        await Work(book, repair, 60);
        MoneyBook.Done(await Issue(book, await Begin(book, repair.Number)));
        var invoice = Assert.Single((await book.Money(repair.Number)).Issued);
        Assert.Equal((net, gross), (invoice.Net, invoice.Gross));
        Assert.Equal(Totals.Round(exactTax, currency == "JPY" ? 0 : 3), invoice.Tax);
    }

    [Fact]
    public async Task A_shop_without_tax_and_one_with_gross_prices_say_so_on_the_paper()
    {
        await using var untaxed = await MoneyBook.OpenAsync(server, shop => shop.TaxRegistered = false);
        var facts = await IssuedFacts(untaxed);
        Assert.Equal((60m, 0m, 60m), (facts.Net, facts.TaxTotal, facts.Total));
        Assert.Contains(facts.Notes, note => note.Contains("not registered for tax"));

        await using var gross = await MoneyBook.OpenAsync(server, shop => shop.PricesIncludeTax = true);
        facts = await IssuedFacts(gross);
        Assert.Equal((49.59m, 10.41m, 60m), (facts.Net, facts.TaxTotal, facts.Total));
        Assert.True(facts.PricesIncludeTax);
    }

    private static async Task<InvoiceFacts> IssuedFacts(MoneyBook book)
    {
        var repair = await book.Repair(preApproved: 500);
        await Work(book, repair, 60);
        MoneyBook.Done(await Issue(book, await Begin(book, repair.Number)));
        var json = await book.Db(db => db.Papers.Select(paper => paper.Facts).SingleAsync(Ct));
        return (InvoiceFacts)PaperJson.Read(PaperKind.Invoice, json);
    }

    [Fact]
    public async Task A_draft_that_comes_to_more_than_the_book_can_hold_is_refused_in_words()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        Assert.Equal(
            new PaperTooLarge(121_000_000_000m, "EUR"),
            (await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 100_000_000_000m, Ct))).Failure);
        await Work(book, repair, 60);
        var id = await Begin(book, repair.Number);
        var form = (await book.Money(repair.Number)).Draft!;
        var line = form.Draft.Lines[0] with { LowQuantity = 9_999_999, HighQuantity = 9_999_999, UnitPrice = 9_999_999 };
        Assert.IsType<PaperTooLarge>((await book.Do<InvoiceService, Result>(service => service.SaveDraftAsync(id, form.Draft with { Lines = [line] }, form.Version, Ct))).Failure);
    }

    [Fact]
    public async Task Who_saves_a_draft_while_it_is_issued_is_told_so()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        await Work(book, repair, 60);
        var id = await Begin(book, repair.Number);
        var form = (await book.Money(repair.Number)).Draft!;
        var issues = Enumerable.Range(0, 4).Select(async _ => (await Issue(book, id)).Failure);
        var saves = Enumerable.Range(0, 6).Select(async n => (await book.Do<InvoiceService, Result>(service => service.SaveDraftAsync(
            id, form.Draft with { Lines = [form.Draft.Lines[0] with { Text = $"Text {n}" }] }, form.Version, Ct))).Failure);
        var refused = (await Task.WhenAll(issues.Concat(saves))).OfType<Failure>().ToList();
        Assert.All(refused, failure => Assert.True(failure is ChangedMeanwhile || failure == new InvoiceAlreadyIssued("I-2026-0001"), failure.ToString()));
    }

    [Fact]
    public async Task A_number_that_was_given_out_under_another_format_is_passed_over()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        async Task<string> Next()
        {
            var repair = await book.Repair(preApproved: 500);
            await Work(book, repair, 60);
            return MoneyBook.Done(await Issue(book, await Begin(book, repair.Number))).Number;
        }
        Assert.Equal("I-2026-0001", await Next());
        Assert.Equal("I-2026-0002", await Next());
        await book.Db(db => db.Shop.ExecuteUpdateAsync(set => set.SetProperty(row => row.InvoiceNumberFormat, "I-2026-{number:0000}"), Ct));
        Assert.Equal("I-2026-0003", await Next());
        Assert.Equal("I-2026-0004", await Next());
    }
}
