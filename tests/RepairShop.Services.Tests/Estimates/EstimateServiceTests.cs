using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Estimates;
using RepairShop.Services.Paperwork;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Estimates;

public sealed class EstimateServiceTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Result<int>> Save(MoneyBook book, string number, EstimateDraft draft, uint? version = null) =>
        book.Do<EstimateService, Result<int>>(service => service.SaveDraftAsync(number, draft, version, Ct));

    private static async Task<EstimateForm> Form(MoneyBook book, string number) =>
        MoneyBook.Done(await book.Do<EstimateService, Result<EstimateForm>>(service => service.FormAsync(number, Ct)));

    [Fact]
    public async Task A_first_offer_starts_with_labour_at_the_shops_rate()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var form = await Form(book, (await book.Repair()).Number);
        Assert.Null(form.Version);
        var line = Assert.Single(form.Draft.Lines);
        Assert.Equal((60m, "Standard|21"), (line.UnitPrice, line.TaxRate));
        Assert.Equal(book.Today.AddDays(30), form.Draft.ValidUntil);
    }

    [Fact]
    public async Task Lines_are_kept_changed_and_removed_in_their_order()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        MoneyBook.Done(await Save(book, number, book.Draft(MoneyBook.Labour(1, 2), MoneyBook.Labour(0.5m, 0.5m) with { Text = "Second" })));
        var form = await Form(book, number);
        MoneyBook.Done(await Save(book, number, form.Draft with { Lines = [form.Draft.Lines[1]] }, form.Version));
        Assert.Equal("Second", Assert.Single((await Form(book, number)).Draft.Lines).Text);
    }

    [Fact]
    public async Task Two_tabs_on_one_draft_are_shown_both_values_even_when_only_a_line_differs()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        MoneyBook.Done(await Save(book, number, book.Draft(MoneyBook.Labour(1, 2))));
        var form = await Form(book, number);
        MoneyBook.Done(await Save(book, number, form.Draft with { Lines = [MoneyBook.Labour(1, 4)] }, form.Version));
        var second = await Save(book, number, form.Draft with { Lines = [MoneyBook.Labour(1, 5)] }, form.Version);
        var difference = Assert.Single(Assert.IsType<ChangedMeanwhile>(second.Failure).Differences);
        Assert.Equal("Line1", difference.Field);
        Assert.Contains("1–4", difference.Stored);
        Assert.Contains("1–5", difference.Typed);
    }

    [Fact]
    public async Task Sending_freezes_totals_paper_and_draft()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number);
        var sent = (await book.Offers(number)).LatestSent!;
        Assert.Equal((145.20m, 217.80m), (sent.Totals.Low.Gross, sent.Totals.High.Gross));
        var paper = await book.Db(db => db.Papers.AsNoTracking().SingleAsync(Ct));
        var facts = (EstimateFacts)PaperJson.Read(PaperKind.Estimate, paper.Facts);
        Assert.Equal((145.20m, 217.80m, 30.25m), (facts.LowTotal, facts.HighTotal, facts.StripDownCharge));
        Assert.StartsWith("https://book.example.com/answer/", facts.AnswerUrl);
        var changed = await Assert.ThrowsAnyAsync<Exception>(() => book.Db(db => db.EstimateLines.ExecuteUpdateAsync(
            set => set.SetProperty(line => line.UnitPrice, 1m), Ct)));
        Assert.Contains("stay as they are", changed.Message);
    }

    [Fact]
    public async Task An_answer_is_recorded_once_with_who_how_and_when()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number);
        MoneyBook.Done(await book.Answer(number, EstimateAnswer.Approved));
        var sheet = await book.Offers(number);
        Assert.Equal(EstimateState.Approved, sheet.LatestSent!.State);
        Assert.Equal((217.80m, "Łukasz Example", AnswerWay.Phone), (sheet.Ceiling.UpTo, sheet.LatestSent.AnsweredBy, sheet.LatestSent.AnsweredHow));
        Assert.IsType<EstimateAlreadyAnswered>((await book.Answer(number, EstimateAnswer.Declined)).Failure);
    }

    [Fact]
    public async Task A_declined_offer_leaves_the_strip_down_charge_as_the_ceiling()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair(preApproved: 500)).Number;
        await book.Sent(number);
        Assert.Equal(500, (await book.Offers(number)).Ceiling.UpTo);
        MoneyBook.Done(await book.Answer(number, EstimateAnswer.Declined));
        Assert.Equal(30.25m, (await book.Offers(number)).Ceiling.UpTo);
    }

    [Fact]
    public async Task A_lapsed_offer_is_answered_only_after_it_was_sent_again()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number);
        book.Clock.Advance(TimeSpan.FromDays(31));
        Assert.IsType<EstimateLapsed>((await book.Answer(number, EstimateAnswer.Approved)).Failure);
        Assert.Equal(2, MoneyBook.Done(await book.Do<EstimateService, Result<int>>(service => service.ReviseAsync(number, 1, Ct))));
        MoneyBook.Done(await book.Do<EstimateSendService, Result<IssuedPaper>>(service => service.SendAsync(number, false, Ct)));
        MoneyBook.Done(await book.Answer(number, EstimateAnswer.Approved, revision: 2));
        Assert.Equal([EstimateState.Lapsed, EstimateState.Approved], (await book.Offers(number)).Revisions.Select(revision => revision.State));
    }

    [Fact]
    public async Task Two_people_sending_the_same_draft_send_it_once()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        MoneyBook.Done(await Save(book, number, book.Draft(MoneyBook.Labour(1, 2))));
        var results = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ =>
            book.Do<EstimateSendService, Result<IssuedPaper>>(service => service.SendAsync(number, byMail: true, Ct))));
        Assert.Single(results, result => result.IsDone);
        Assert.Equal(5, results.Count(result => result.Failure == new EstimateNotDraft(1)));
        Assert.Equal((1, 1), await book.Db(async db => (await db.Papers.CountAsync(Ct), await db.Outbox.CountAsync(Ct))));
    }

    [Fact]
    public async Task What_the_customer_has_been_told_already_is_not_sent_as_a_new_revision()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number, byMail: true);
        Task<Result<int>> Again(EstimateDraft draft) => book.Do<EstimateService, Result<int>>(
            service => service.SaveDraftAsync(number, draft, null, Ct, toSend: true));
        var same = book.Draft(MoneyBook.Labour(2, 3));
        Assert.Equal(new EstimateSaysTheSame(1), (await Again(same)).Failure);
        Assert.Single((await book.Offers(number)).Revisions);
        MoneyBook.Done(await book.Do<EstimateService, Result<int>>(service => service.ReviseAsync(number, 1, Ct)));
        Assert.Equal(new EstimateSaysTheSame(1), (await book.Do<EstimateSendService, Result<IssuedPaper>>(service => service.SendAsync(number, true, Ct))).Failure);
        Assert.Equal((1, 1), await book.Db(async db => (await db.Papers.CountAsync(Ct), await db.Outbox.CountAsync(Ct))));
        var kept = (await Form(book, number)).Version;
        Assert.Equal(2, MoneyBook.Done(await Save(book, number, same with { Lines = [MoneyBook.Labour(2, 3) with { Kind = LineKind.Other }] }, kept)));
        MoneyBook.Done(await book.Do<EstimateSendService, Result<IssuedPaper>>(service => service.SendAsync(number, false, Ct)));
    }

    [Fact]
    public async Task What_was_declined_may_be_offered_once_more()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number);
        MoneyBook.Done(await book.Answer(number, EstimateAnswer.Declined));
        await book.Sent(number);
        Assert.Equal(2, (await book.Offers(number)).LatestSent!.Revision);
    }

    [Fact]
    public async Task Further_consent_raises_the_ceiling_and_less_is_refused()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair(preApproved: 100)).Number;
        Task<Result> Consent(decimal upTo) => book.Do<EstimateAnswerService, Result>(service =>
            service.ConsentAsync(number, upTo, "Łukasz Example", AnswerWay.Phone, "A spring is broken too", Ct));
        Assert.Equal(new ConsentNotAbove(90, 100, "EUR"), (await Consent(90)).Failure);
        book.Clock.Advance(TimeSpan.FromHours(1));
        MoneyBook.Done(await Consent(180));
        var ceiling = (await book.Offers(number)).Ceiling;
        Assert.Equal(180, ceiling.UpTo);
        Assert.Contains("agreed to up to €180.00", ceiling.Consents[^1].Sentence);
        Assert.Contains("by phone: A spring is broken too.", ceiling.Consents[^1].Sentence);
    }

    [Fact]
    public async Task An_offer_or_a_limit_larger_than_the_book_can_hold_is_refused_in_words()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair();
        var line = MoneyBook.Labour(1, 9_999_999, 9_999_999);
        Assert.IsType<PaperTooLarge>((await book.Do<EstimateService, Result<int>>(service => service.SaveDraftAsync(repair.Number, book.Draft(line), null, MoneyBook.Cancel))).Failure);
        Assert.Equal(new ConsentAmountOutOfRange(100_000_000_000m), (await book.Do<EstimateAnswerService, Result>(
            service => service.ConsentAsync(repair.Number, 100_000_000_000m, "Łukasz Example", AnswerWay.Phone, "", MoneyBook.Cancel))).Failure);
    }

    [Fact]
    public async Task Who_saves_a_draft_while_it_is_sent_is_told_so()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        for (var round = 0; round < 5; round++)
        {
            var repair = await book.Repair();
            MoneyBook.Done(await book.Do<EstimateService, Result<int>>(service => service.SaveDraftAsync(repair.Number, book.Draft(MoneyBook.Labour(1, 2)), null, MoneyBook.Cancel)));
            var version = MoneyBook.Done(await book.Do<EstimateService, Result<EstimateForm>>(service => service.FormAsync(repair.Number, MoneyBook.Cancel))).Version;
            var sending = book.Do<EstimateSendService, Result<IssuedPaper>>(service => service.SendAsync(repair.Number, false, MoneyBook.Cancel));
            var saves = Enumerable.Range(0, 6).Select(async n =>
            {
                await Task.Delay(n * 7, MoneyBook.Cancel);
                return (await book.Do<EstimateService, Result<int>>(service => service.SaveDraftAsync(repair.Number, book.Draft(MoneyBook.Labour(1, 3 + n)), version, MoneyBook.Cancel))).Failure;
            });
            var refused = (await Task.WhenAll(saves)).OfType<Failure>().ToList();
            Assert.True((await sending).Failure is null or ChangedMeanwhile);
            Assert.All(refused, failure => Assert.True(failure is EstimateNotDraft or ChangedMeanwhile, failure.ToString()));
        }
    }
}
