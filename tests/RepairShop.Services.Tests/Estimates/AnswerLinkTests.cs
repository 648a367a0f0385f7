using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Estimates;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Estimates;

public sealed class AnswerLinkTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static async Task<string> Token(MoneyBook book)
    {
        var body = await book.Db(db => db.Outbox.AsNoTracking().OrderByDescending(mail => mail.Id).Select(mail => mail.Body).FirstAsync(Ct));
        return body.Split("/answer/")[1].Split('\n')[0].Trim();
    }

    private static Task<Result<EstimateFacts>> Open(MoneyBook book, string token) =>
        book.Do<AnswerLinkService, Result<EstimateFacts>>(service => service.OpenAsync(token, Ct));

    private static Task<Result> Answer(MoneyBook book, string token, string name = "Łukasz") =>
        book.Do<AnswerLinkService, Result>(service => service.AnswerAsync(token, EstimateAnswer.Approved, name, "please hurry", Ct));

    [Fact]
    public async Task The_link_in_the_letter_shows_the_offer_and_takes_one_answer()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number, byMail: true);
        var token = await Token(book);
        Assert.Equal(43, token.Length); // 256 bits in base64url
        Assert.Equal(217.80m, MoneyBook.Done(await Open(book, token)).HighTotal);
        Assert.Equal(new AnswererMissing(), (await Answer(book, token, name: " ")).Failure);
        MoneyBook.Done(await Answer(book, token));
        var sent = (await book.Offers(number)).LatestSent!;
        Assert.Equal((AnswerWay.Link, "Łukasz", "please hurry"), (sent.AnsweredHow, sent.AnsweredBy, sent.AnswerNote));
        Assert.Equal(new AnswerLinkDead(), (await Answer(book, token)).Failure);
        Assert.Equal(new AnswerLinkDead(), (await Open(book, token)).Failure);
    }

    [Fact]
    public async Task The_secret_itself_is_not_in_its_table()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await book.Sent((await book.Repair()).Number, byMail: true);
        var token = await Token(book);
        var stored = await book.Db(db => db.AnswerLinks.AsNoTracking().SingleAsync(Ct));
        Assert.NotEqual(token, stored.TokenHash);
        Assert.Equal(64, stored.TokenHash.Length);
    }

    [Fact]
    public async Task It_ends_with_the_offers_last_day_in_the_shops_zone()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.TimeZone = "America/Los_Angeles");
        await book.Sent((await book.Repair()).Number, byMail: true);
        var token = await Token(book);
        // Valid until 24 December; that day ends in Los Angeles at 08:00 UTC on the 25th.
        book.Clock.SetUtcNow(new DateTimeOffset(2026, 12, 25, 7, 59, 0, TimeSpan.Zero));
        Assert.True((await Open(book, token)).IsDone);
        book.Clock.SetUtcNow(new DateTimeOffset(2026, 12, 25, 8, 0, 1, TimeSpan.Zero));
        Assert.Equal(new AnswerLinkDead(), (await Open(book, token)).Failure);
    }

    [Fact]
    public async Task A_new_revision_or_the_owner_takes_it_back()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        await book.Sent(number, byMail: true);
        var first = await Token(book);
        book.Clock.Advance(TimeSpan.FromDays(1)); // a later valid-until day is something new to say
        MoneyBook.Done(await book.Do<EstimateService, Result<int>>(service => service.ReviseAsync(number, 1, Ct)));
        Assert.True((await Open(book, first)).IsDone); // a draft nobody has seen replaces nothing yet
        MoneyBook.Done(await book.Do<EstimateSendService, Result<Services.Paperwork.IssuedPaper>>(service => service.SendAsync(number, true, Ct)));
        Assert.Equal(new AnswerLinkDead(), (await Open(book, first)).Failure);
        var second = await Token(book);
        MoneyBook.Done(await book.Do<EstimateAnswerService, Result>(service => service.RevokeLinkAsync(number, Ct)));
        Assert.Equal(new AnswerLinkDead(), (await Open(book, second)).Failure);
        MoneyBook.Done(await book.Answer(number, EstimateAnswer.Approved, revision: 2));
    }

    [Theory]
    [InlineData("")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("' or 1=1 --")]
    public async Task Anything_else_is_told_the_same_sentence(string token)
    {
        await using var book = await MoneyBook.OpenAsync(server);
        Assert.Equal(AnswerLinkDead.Sentence, (await Open(book, token)).Failure!.Message);
        Assert.Equal(AnswerLinkDead.Sentence, (await Answer(book, token)).Failure!.Message);
    }

    [Fact]
    public async Task Without_a_public_address_there_is_no_link()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.PublicAddress = "");
        await book.Sent((await book.Repair()).Number, byMail: true);
        Assert.Equal(0, await book.Db(db => db.AnswerLinks.CountAsync(Ct)));
        Assert.Contains("by e-mail, phone or letter", await book.Db(db => db.Outbox.Select(mail => mail.Body).SingleAsync(Ct)));
    }
}
