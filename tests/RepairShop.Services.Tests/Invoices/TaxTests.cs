using System.Text;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

public sealed class TaxTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Guid> Profile(MoneyBook book, Action<TaxProfile> change) => book.Do<TaxProfileService, Guid>(async service =>
    {
        var profile = new TaxProfile { Name = "Other" };
        change(profile);
        MoneyBook.Done(await service.Add(profile, Ct));
        return profile.Id;
    });

    private static Task Customer(MoneyBook book, Repair repair, Action<Domain.Customers.Customer> change) => book.Db(async db =>
    {
        change(await db.Customers.SingleAsync(row => row.Id == repair.CustomerId, Ct));
        await db.SaveChangesAsync(Ct);
    });

    private static async Task<Repair> Worked(MoneyBook book, int minutes = 60)
    {
        var repair = await book.Repair(preApproved: 5000);
        await InvoiceTests.Work(book, repair, minutes);
        return repair;
    }

    private static async Task<InvoiceFacts> Facts(MoneyBook book, Guid paper, PaperKind kind = PaperKind.Invoice) =>
        (InvoiceFacts)PaperJson.Read(kind, await book.Db(db => db.Papers.Where(row => row.Id == paper).Select(row => row.Facts).SingleAsync(Ct)));

    private static Task<Result> Save(MoneyBook book, Guid id, InvoiceForm form, Func<InvoiceDraft, InvoiceDraft> change) =>
        book.Do<InvoiceService, Result>(service => service.SaveDraftAsync(id, change(form.Draft), form.Version, Ct));

    private static async Task<InvoiceForm> Form(MoneyBook book, Repair repair) => (await book.Money(repair.Number)).Draft!;

    [Fact]
    public async Task A_customer_abroad_is_billed_without_tax_and_the_paper_says_why()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.PricesIncludeTax = true);
        var repair = await Worked(book);
        var export = await Profile(book, profile => (profile.Name, profile.Treatment) = ("Abroad", TaxTreatment.Export));
        await Customer(book, repair, customer => customer.TaxProfileId = export);
        var paper = MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number)));
        var facts = await Facts(book, paper.Id);
        Assert.Equal((60m, 0m, 60m), (facts.Net, facts.TaxTotal, facts.Total));
        var tax = Assert.Single(facts.Taxes);
        Assert.Equal((TaxCategory.Export, 0m, "Export, zero-rated"), (tax.Category, tax.Percent, tax.Reason));
    }

    [Fact]
    public async Task Reverse_charge_needs_the_customers_number_before_it_is_issued()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book);
        var profile = await Profile(book, one => (one.Name, one.Treatment) = ("Business abroad", TaxTreatment.ReverseCharge));
        await Customer(book, repair, customer => (customer.TaxProfileId, customer.Address.CountryCode) = (profile, "DE"));
        var id = await InvoiceTests.Begin(book, repair.Number);
        Assert.Equal(new ReverseChargeNeedsNumber("Łukasz Example"), (await InvoiceTests.Issue(book, id)).Failure);
        await Customer(book, repair, customer => customer.TaxNumber = "DE12345"); // not the form of a German number
        Assert.Equal(new ReverseChargeNeedsNumber("Łukasz Example"), (await InvoiceTests.Issue(book, id)).Failure);
        await Customer(book, repair, customer => customer.TaxNumber = "DE 123 456 789");
        var facts = await Facts(book, MoneyBook.Done(await InvoiceTests.Issue(book, id)).Id);
        Assert.Equal((TaxCategory.ReverseCharge, "DE 123 456 789"), (Assert.Single(facts.Taxes).Category, facts.Customer.TaxNumber));
    }

    [Fact]
    public async Task Changing_the_profile_of_a_draft_taxes_every_line_anew_and_takes_the_tax_out_of_prices_that_held_it()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.PricesIncludeTax = true);
        var repair = await Worked(book);
        var id = await InvoiceTests.Begin(book, repair.Number);
        Assert.Equal(60m, (await Form(book, repair)).Totals.Gross);
        var export = await Profile(book, profile => (profile.Name, profile.Treatment) = ("Abroad", TaxTreatment.Export));
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with { TaxProfileId = export }));
        Assert.Equal((49.59m, 0m), ((await Form(book, repair)).Totals.Gross, (await Form(book, repair)).Totals.Tax));
        var home = await Profile(book, profile => (profile.Name, profile.PricesIncludeTax) = ("Home", true));
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with { TaxProfileId = home }));
        Assert.Equal((60m, 10.41m), ((await Form(book, repair)).Totals.Gross, (await Form(book, repair)).Totals.Tax));
    }

    [Fact]
    public async Task A_sales_tax_on_parts_leaves_labour_alone()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book);
        await Profile(book, profile => (profile.Name, profile.TaxesLabour, profile.IsUsual) = ("Parts only", false, true));
        await book.Db(async db =>
        {
            db.PartUses.Add(new Domain.Parts.PartUse
            {
                RepairId = repair.Id,
                Text = "Spring",
                Quantity = 1,
                Unit = "pcs",
                UnitPrice = 10,
                TaxName = "Standard",
                TaxPercent = 21,
                UsedAt = book.Clock.GetUtcNow(),
                UsedBy = book.Person,
            });
            await db.SaveChangesAsync(Ct);
        });
        var facts = await Facts(book, MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number))).Id);
        Assert.Equal((70m, 2.10m, 72.10m), (facts.Net, facts.TaxTotal, facts.Total));
        Assert.Equal([TaxCategory.Standard, TaxCategory.Exempt], facts.Taxes.Select(tax => tax.Category));
        Assert.NotNull(facts.Taxes[1].Reason);
    }

    [Fact]
    public async Task A_rate_that_changes_on_a_day_is_taken_by_the_day_the_work_was_done()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book);
        MoneyBook.Done(await book.Do<TaxRateService, Result>(service => service.Add(
            new TypedRate("standard", 23, TaxCategory.Standard, "", book.Today.AddDays(1)), Ct)));
        await InvoiceTests.Begin(book, repair.Number);
        Assert.Equal(12.60m, (await Form(book, repair)).Totals.Tax);
        var later = await Worked(book);
        book.Clock.Advance(TimeSpan.FromDays(1));
        await InvoiceTests.Begin(book, later.Number);
        Assert.Equal(13.80m, (await Form(book, later)).Totals.Tax);
        Assert.Equal("Standard", (await Form(book, later)).Taxes.Single().Name);
        var refused = await book.Do<TaxRateService, Result>(service => service.Add(
            new TypedRate("Standard", 25, TaxCategory.Standard, "", book.Today.AddDays(-9)), Ct));
        Assert.Equal(new TaxRateNameTaken("Standard"), refused.Failure); // nothing may begin before what has begun
    }

    [Fact]
    public async Task Discounts_and_charges_on_a_line_and_on_the_whole_are_kept_issued_and_printed()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with
        {
            Lines = [draft.Lines[0] with { Change = new PriceChange(-10, 0) }],
            Changes = [new PaperChange("Goodwill", new PriceChange(null, -8)), new PaperChange("Insured post", new PriceChange(null, 12))],
        }));
        var facts = await Facts(book, MoneyBook.Done(await InvoiceTests.Issue(book, id)).Id);
        Assert.Equal((112m, 23.52m, 135.52m), (facts.Net, facts.TaxTotal, facts.Total)); // 120 − 12 − 8 + 12
        Assert.Equal((-12m, -10m), (facts.Lines[0].Change, facts.Lines[0].ChangePercent));
        Assert.Equal([8m, -12m], facts.Allowances.Select(allowance => allowance.Amount));
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => book.Db(db => db.Database.ExecuteSqlRawAsync("update invoice_changes set amount = 1", Ct)));
        Assert.Equal("23001", refused.SqlState);
        refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => book.Db(db => db.Database.ExecuteSqlRawAsync("delete from invoice_taxes", Ct)));
        Assert.Equal("23001", refused.SqlState);
    }

    [Theory]
    [InlineData(50, 0, 60.5)]
    [InlineData(57, -0.02, 68.95)] // 57 + 11.97 = 68.97
    [InlineData(57.1, 0.01, 69.1)] // 57.10 + 11.99 = 69.09
    public async Task Cash_in_francs_is_rounded_to_five_centimes(decimal price, decimal rounding, decimal owed)
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => (shop.Currency, shop.CashStep, shop.LabourRate) = ("CHF", 0.05m, price));
        var repair = await Worked(book);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with { RoundsToCoin = true }));
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        var invoice = Assert.Single((await book.Money(repair.Number)).Issued);
        Assert.Equal((rounding, owed), (invoice.CashRounding, invoice.Balance));
        MoneyBook.Done(await book.Do<PaymentService, Result>(service => service.PayAsync(
            id, new TypedPayment(owed, PaymentMethod.Cash, "", book.Today, Guid.CreateVersion7()), Ct)));
        Assert.Equal(0, (await book.Money(repair.Number)).Balance);
        MoneyBook.Done(await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, "Wrong", false, Ct)));
        Assert.Equal(-owed, (await book.Money(repair.Number)).Balance);
    }

    [Fact]
    public async Task A_deposit_is_taken_off_the_final_invoice_and_all_of_it_stays_under_the_approval()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 145.20m);
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)));
        var deposit = MoneyBook.Done(await InvoiceTests.Issue(book, (await Form(book, repair)).Id));
        Assert.True((await Facts(book, deposit.Id)).IsDeposit);
        await InvoiceTests.Work(book, repair, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        Assert.Equal((70m, 84.70m), ((await Form(book, repair)).Totals.Net, (await Form(book, repair)).Totals.Gross));
        var facts = await Facts(book, MoneyBook.Done(await InvoiceTests.Issue(book, id)).Id);
        Assert.Equal(("I-2026-0001", book.Today), (Assert.Single(facts.Deposits).Number, facts.Deposits[0].IssueDate));
        Assert.Equal((LineGroup.Deposit, -1m, 50m), (facts.Lines[^1].Group, facts.Lines[^1].Quantity, facts.Lines[^1].UnitPrice));
        Assert.Equal(145.20m, (await book.Money(repair.Number)).Invoiced);
        await InvoiceTests.Begin(book, repair.Number); // nothing of the deposit is left for another
        Assert.Empty((await Form(book, repair)).Deposits);
    }

    [Fact]
    public async Task A_deposit_alone_is_not_the_bill_the_camera_goes_home_with()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, (await Form(book, repair)).Id));
        await InvoiceTests.Work(book, repair, 60);
        var sheet = MoneyBook.Done(await book.Do<SheetService, Result<RepairSheet>>(service => service.GetAsync(repair.Number, Ct)));
        Assert.Contains(StillMissing.Invoice, sheet.Margin.MissingForReturn);
        Assert.Equal((false, 72.60m), (sheet.Margin.IsInvoiced, sheet.Margin.UsedSoFar)); // the hour of work, not the deposit
    }

    [Fact]
    public async Task An_invoice_goes_back_in_parts_up_to_what_it_was_and_the_database_says_so_too()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book, 120); // 120 and 25.20
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        var line = Assert.Single(Assert.Single((await book.Money(repair.Number)).Issued).Lines);
        Task<Result<IssuedPaper>> Credit(CreditRequest request) =>
            book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, request, "In part", false, Ct));
        MoneyBook.Done(await Credit(new CreditRequest([new CreditedLine(line.Id, 0.5m)], [])));
        Assert.Equal(108.90m, (await book.Money(repair.Number)).Balance);
        Assert.Equal(new CreditAboveLine("Labour", 2, 1.5m, "h"), (await Credit(new CreditRequest([new CreditedLine(line.Id, 2)], []))).Failure);
        var rate = new TaxKey(TaxCategory.Standard, "Standard", 21);
        Assert.Equal(new CreditAboveRate("Standard", 21, 90.01m, 90, "EUR"), (await Credit(new CreditRequest([], [new CreditedAmount(rate, 90.01m)]))).Failure);
        MoneyBook.Done(await Credit(new CreditRequest([], [new CreditedAmount(rate, 40)])));
        MoneyBook.Done(await Credit(CreditRequest.Everything));
        var money = await book.Money(repair.Number);
        Assert.Equal((0m, 145.20m), (money.Balance, money.Issued.Single(invoice => invoice.Kind == InvoiceKind.Invoice).Credited));
        Assert.Equal(new AlreadyCredited("I-2026-0001", "C-2026-0003"), (await Credit(CreditRequest.Everything)).Failure);
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => book.Db(db => db.Database.ExecuteSqlRawAsync(
            """
            insert into invoices (id, repair_id, customer_id, kind, basis, credits_id, number, created_at, created_by, issued_at, currency, tax_registered, prices_include_tax, cash_step, note, net, tax, gross, cash_rounding)
            select gen_random_uuid(), repair_id, customer_id, 'CreditNote', basis, id, 'X-1', created_at, created_by, issued_at, currency, tax_registered, prices_include_tax, 0, '', 0.01, 0, 0.01, 0 from invoices where kind = 'Invoice'
            """, Ct)));
        Assert.Equal("ck_invoices_credited", refused.ConstraintName);
    }

    [Fact]
    public async Task Two_people_crediting_half_and_more_at_once_never_give_back_more_than_the_invoice()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        var rate = new TaxKey(TaxCategory.Standard, "Standard", 21);
        var results = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => book.Do<InvoiceIssueService, Result<IssuedPaper>>(service =>
            service.CreditAsync(id, new CreditRequest([], [new CreditedAmount(rate, 50)]), "At once", false, Ct)))));
        Assert.Equal(2, results.Count(result => result.IsDone));
        Assert.Equal(4, results.Count(result => result.Failure is CreditAboveRate));
        Assert.Equal(121m, (await book.Money(repair.Number)).Issued.Single(invoice => invoice.Kind == InvoiceKind.Invoice).Credited);
    }

    [Fact]
    public async Task The_electronic_invoice_stands_beside_the_paper_and_goes_with_the_letter()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop =>
        {
            (shop.EInvoices, shop.TaxNumber, shop.Iban) = (EInvoiceUse.WherePossible, "IE1234567FA", "IE71TEST99999912345678");
        });
        var repair = await Worked(book);
        await Customer(book, repair, customer => customer.Address.CountryCode = "IE");
        var paper = MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number), byMail: true));
        Assert.Empty(paper.EInvoiceFaults);
        var file = MoneyBook.Done(await book.Do<PaperService, Result<PaperFile>>(service => service.OpenEInvoiceAsync(paper.Id, Ct)));
        Assert.EndsWith(".xml", file.FileName);
        var xml = Encoding.UTF8.GetString(file.Bytes);
        Assert.Contains("<cbc:PayableAmount currencyID=\"EUR\">72.60</cbc:PayableAmount>", xml);
        Assert.Contains("<cbc:PaymentID>RF", xml);
        var pdf = MoneyBook.Done(await book.Do<PaperService, Result<PaperFile>>(service => service.OpenAsync(paper.Id, Ct)));
        var inside = Encoding.UTF8.GetString(pdf.Bytes);
        Assert.Contains("<ram:DuePayableAmount>72.60</ram:DuePayableAmount>", inside);
        Assert.Contains("<fx:DocumentFileName>factur-x.xml</fx:DocumentFileName>", inside);
        await book.Office.SendDueAsync(Ct);
        var letter = await File.ReadAllTextAsync(Directory.GetFiles(book.PostFolder, "*.eml").Single(), Ct);
        Assert.Contains("application/xml", letter);
        Assert.Contains("application/pdf", letter);
    }

    [Fact]
    public async Task A_shop_that_always_wants_one_is_told_what_is_missing_and_another_still_gets_its_paper()
    {
        await using var strict = await MoneyBook.OpenAsync(server, shop => (shop.EInvoices, shop.TaxNumber) = (EInvoiceUse.Always, "IE1234567FA"));
        var repair = await Worked(strict);
        var id = await InvoiceTests.Begin(strict, repair.Number);
        var refused = Assert.IsType<EInvoiceIncomplete>((await InvoiceTests.Issue(strict, id)).Failure);
        Assert.Equal(["BR-11"], refused.Faults.Select(fault => fault.Code));
        Assert.Contains("Write the customer's country on the customer's page.", refused.Message);
        Assert.Equal(0, await strict.Db(db => db.NumberSeries.CountAsync(Ct)));

        await using var easy = await MoneyBook.OpenAsync(server, shop => (shop.EInvoices, shop.TaxNumber) = (EInvoiceUse.WherePossible, "IE1234567FA"));
        var other = await Worked(easy);
        id = await InvoiceTests.Begin(easy, other.Number);
        Assert.Contains((await Form(easy, other)).Hints, hint => hint.Contains("BR-11"));
        var paper = MoneyBook.Done(await InvoiceTests.Issue(easy, id));
        Assert.Equal("BR-11", Assert.Single(paper.EInvoiceFaults).Code);
        Assert.IsType<NoSuchPaper>((await easy.Do<PaperService, Result<PaperFile>>(service => service.OpenEInvoiceAsync(paper.Id, Ct))).Failure);
        var pdf = MoneyBook.Done(await easy.Do<PaperService, Result<PaperFile>>(service => service.OpenAsync(paper.Id, Ct)));
        Assert.DoesNotContain("factur-x", Encoding.UTF8.GetString(pdf.Bytes));
    }

    [Fact]
    public async Task A_usual_profile_that_begins_on_a_day_ends_the_one_before()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await Profile(book, profile => (profile.Name, profile.Treatment, profile.IsUsual) = ("Small", TaxTreatment.NotRegistered, true));
        await Profile(book, profile => (profile.Name, profile.IsUsual, profile.ValidFrom) = ("Registered", true, book.Today.AddDays(1)));
        var repair = await Worked(book);
        await InvoiceTests.Begin(book, repair.Number);
        Assert.Equal(60m, (await Form(book, repair)).Totals.Gross);
        var later = await Worked(book);
        book.Clock.Advance(TimeSpan.FromDays(1));
        await InvoiceTests.Begin(book, later.Number);
        Assert.Equal(72.60m, (await Form(book, later)).Totals.Gross);
    }

    [Fact]
    public async Task Rounding_to_the_coin_does_not_lift_an_invoice_above_what_was_approved()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => (shop.Currency, shop.CashStep, shop.LabourRate) = ("CHF", 0.05m, 57.1m));
        var repair = await book.Repair(preApproved: 69.09m);
        await InvoiceTests.Work(book, repair, 60);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with { RoundsToCoin = true }));
        Assert.Equal(new AboveApproved(69.10m, 0, 69.09m, "CHF"), (await InvoiceTests.Issue(book, id)).Failure);
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with { RoundsToCoin = false }));
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_deposit_is_taken_off_once_though_prices_are_written_the_other_way_since(bool withTaxFirst)
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.PricesIncludeTax = withTaxFirst);
        var repair = await book.Repair(preApproved: 1000);
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, (await Form(book, repair)).Id));
        await InvoiceTests.Work(book, repair, 120);
        MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number)));
        await book.Db(db => db.Shop.ExecuteUpdateAsync(set => set.SetProperty(row => row.PricesIncludeTax, !withTaxFirst), Ct));
        await InvoiceTests.Begin(book, repair.Number);
        Assert.Empty((await Form(book, repair)).Deposits);
    }

    [Fact]
    public async Task A_deposit_that_is_taken_off_is_not_given_back_as_well()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 145.20m);
        MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)));
        var deposit = (await Form(book, repair)).Id;
        MoneyBook.Done(await InvoiceTests.Issue(book, deposit));
        await InvoiceTests.Work(book, repair, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        Task<Result<IssuedPaper>> Credit(Guid invoice) => book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(invoice, "Wrong", false, Ct));
        Assert.Equal(new DepositTakenOff("I-2026-0001", "I-2026-0002"), (await Credit(deposit)).Failure);
        MoneyBook.Done(await Credit(id));
        MoneyBook.Done(await Credit(deposit));
        Assert.Equal(0, (await book.Money(repair.Number)).Invoiced);
    }

    [Fact]
    public async Task A_credit_note_gives_a_line_back_once_and_never_nothing()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await Worked(book);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await Save(book, id, await Form(book, repair), draft => draft with { Lines = [draft.Lines[0], draft.Lines[0] with { Text = "Other", UnitPrice = 0.01m }, draft.Lines[0] with { Text = "More" }] }));
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        var lines = Assert.Single((await book.Money(repair.Number)).Issued).Lines;
        async Task<Failure?> Refused(CreditRequest request) =>
            (await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, request, "In part", false, Ct))).Failure;
        Assert.Equal(new CreditAboveLine("Labour", 2, 1, "h"), await Refused(new CreditRequest([new CreditedLine(lines[0].Id, 1), new CreditedLine(lines[0].Id, 1)], [])));
        Assert.Equal(new CreditQuantityTooFine("Labour", 0.33333m), await Refused(new CreditRequest([new CreditedLine(lines[0].Id, 0.33333m)], [])));
        Assert.Equal(new CreditOfNothing(), await Refused(new CreditRequest([new CreditedLine(lines[1].Id, 0.1m)], [])));
        Assert.Equal(new CreditAmountTooFine(0.004m, "EUR"), await Refused(new CreditRequest([], [new CreditedAmount(new TaxKey(TaxCategory.Standard, "Standard", 21), 0.004m)])));
        Assert.Equal(0, await book.Db(db => db.Invoices.CountAsync(row => row.Kind == InvoiceKind.CreditNote, Ct)));
    }
}
