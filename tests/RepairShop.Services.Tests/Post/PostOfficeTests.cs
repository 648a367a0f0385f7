using MailKit.Security;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using Npgsql;
using RepairShop.Domain.Post;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Post;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Post;

public sealed class PostOfficeTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<OutboxMail> Mail(MoneyBook book) => book.Db(db => db.Outbox.AsNoTracking().OrderByDescending(mail => mail.Id).FirstAsync(Ct));

    private static MailSettings Smtp(int port) => new("localhost", port, "", "", "bench@example.com", SecureSocketOptions.None, "");

    public sealed class IntoAFolder(PostgresServer server)
    {
        [Fact]
        public async Task A_letter_becomes_one_file_with_the_paper_attached()
        {
            await using var book = await MoneyBook.OpenAsync(server);
            await book.Sent((await book.Repair(name: "Łukasz Ωmega יוסף")).Number, byMail: true);
            Assert.Equal(1, await book.Office.SendDueAsync(Ct));
            var message = await MimeMessage.LoadAsync(Assert.Single(Directory.GetFiles(book.PostFolder, "*.eml")), Ct);
            Assert.Equal("Łukasz Ωmega יוסף", Assert.Single(message.To.Mailboxes).Name);
            Assert.Contains("It comes to between €145.20 and €217.80", message.TextBody);
            var attachment = Assert.IsType<MimePart>(Assert.Single(message.Attachments));
            Assert.Equal("estimate-2026-0001-e1.pdf", attachment.FileName);
            using var bytes = new MemoryStream();
            await attachment.Content!.DecodeToAsync(bytes, Ct);
            Assert.Equal("%PDF"u8.ToArray(), bytes.ToArray()[..4]);
            Assert.Equal(MailState.Sent, (await Mail(book)).State);
        }

        [Fact]
        public async Task A_kill_while_writing_leaves_one_whole_file_in_the_end()
        {
            await using var book = await MoneyBook.OpenAsync(server);
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Office.SendDueAsync(Ct);
            var file = Assert.Single(Directory.GetFiles(book.PostFolder));
            var first = await File.ReadAllBytesAsync(file, Ct);
            // As found after a kill between handing over and noting it.
            await book.Db(db => db.Outbox.ExecuteUpdateAsync(set => set.SetProperty(mail => mail.State, MailState.HandingOver), Ct));
            await book.Office.RecoverAsync(Ct);
            Assert.Equal(1, await book.Office.SendDueAsync(Ct));
            Assert.Equal(file, Assert.Single(Directory.GetFiles(book.PostFolder)));
            Assert.Equal(first, await File.ReadAllBytesAsync(file, Ct));
        }

        [Fact]
        public async Task Two_workers_at_once_write_each_letter_once()
        {
            await using var book = await MoneyBook.OpenAsync(server);
            for (var index = 0; index < 12; index++)
                await book.Sent((await book.Repair()).Number, byMail: true);
            var taken = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => book.Office.SendDueAsync(Ct))));
            await book.Office.SendDueAsync(Ct); // a worker that found a letter's lock taken leaves it to the next round
            Assert.Equal(12, Directory.GetFiles(book.PostFolder, "*.eml").Length);
            Assert.True(taken.Sum() <= 12);
            Assert.All(await book.Db(db => db.Outbox.AsNoTracking().ToListAsync(Ct)), mail => Assert.Equal((MailState.Sent, 1), (mail.State, mail.Attempts)));
        }
    }

    public sealed class WhenNotingFails(PostgresServer server)
    {
        [Fact]
        public async Task The_letters_lock_does_not_stay_on_the_connection()
        {
            await using var book = await MoneyBook.OpenAsync(server);
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Db(db => db.Database.ExecuteSqlRawAsync(
                """
                create function noting_fails() returns trigger language plpgsql as $$ begin raise exception 'no room'; end $$;
                create trigger noting_fails before update on outbox for each row when (new.state = 'Sent') execute function noting_fails();
                """, Ct));
            await Assert.ThrowsAnyAsync<DbUpdateException>(() => book.Office.SendDueAsync(Ct));
            // Asked over a connection of its own: one from the pool would let go of what it held before.
            var address = await book.Db(db => Task.FromResult(db.Database.GetConnectionString()!));
            await using var own = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(address) { Pooling = false }.ConnectionString);
            await own.OpenAsync(Ct);
            await using var question = new NpgsqlCommand(
                "select count(*) from pg_locks where locktype = 'advisory' and database = (select oid from pg_database where datname = current_database())", own);
            Assert.Equal(0L, await question.ExecuteScalarAsync(Ct));
        }
    }

    public sealed class OverSmtp(PostgresServer server)
    {
        [Fact]
        public async Task A_letter_is_handed_over_once_with_an_id_made_from_its_row()
        {
            await using var host = await MailHost.StartAsync();
            await using var book = await MoneyBook.OpenAsync(server, mail: Smtp(host.Port));
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Office.SendDueAsync(Ct);
            await book.Office.SendDueAsync(Ct);
            var message = Assert.Single(host.Messages);
            Assert.Equal($"{(await Mail(book)).Id:N}@example.com", message.MessageId);
        }

        [Fact]
        public async Task After_a_kill_between_handing_over_and_noting_it_the_letter_is_in_doubt_and_not_sent_twice()
        {
            await using var host = await MailHost.StartAsync();
            await using var book = await MoneyBook.OpenAsync(server, mail: Smtp(host.Port));
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Office.SendDueAsync(Ct);
            await book.Db(db => db.Outbox.ExecuteUpdateAsync(set => set.SetProperty(mail => mail.State, MailState.HandingOver), Ct));
            await book.Office.RecoverAsync(Ct);
            await book.Office.SendDueAsync(Ct);
            Assert.Single(host.Messages);
            var mail = await Mail(book);
            Assert.Equal(MailState.InDoubt, mail.State);
            Assert.Contains("may have been sent", mail.LastError);
        }

        [Fact]
        public async Task A_letter_another_process_is_handing_over_is_left_alone()
        {
            await using var host = await MailHost.StartAsync(delay: TimeSpan.FromSeconds(2));
            await using var book = await MoneyBook.OpenAsync(server, mail: Smtp(host.Port));
            await book.Sent((await book.Repair()).Number, byMail: true);
            var sending = Task.Run(() => book.Office.SendDueAsync(Ct));
            while ((await Mail(book)).State != MailState.HandingOver)
                await Task.Delay(20, Ct);
            await book.Office.RecoverAsync(Ct);
            Assert.Equal(MailState.HandingOver, (await Mail(book)).State);
            await sending;
            Assert.Equal(MailState.Sent, (await Mail(book)).State);
        }

        [Fact]
        public async Task A_server_that_is_away_is_tried_again_later_and_given_up_in_the_end()
        {
            await using var book = await MoneyBook.OpenAsync(server, mail: Smtp(1)); // nobody listens on port 1
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Office.SendDueAsync(Ct);
            var mail = await Mail(book);
            Assert.Equal((MailState.Waiting, 1, book.Clock.GetUtcNow().AddMinutes(1)), (mail.State, mail.Attempts, mail.NextTryAt));
            Assert.NotEqual("", mail.LastError);
            Assert.Equal(0, await book.Office.SendDueAsync(Ct));
            for (var attempt = 2; attempt <= OutboxRules.MostAttempts; attempt++)
            {
                book.Clock.Advance(TimeSpan.FromHours(4));
                Assert.Equal(1, await book.Office.SendDueAsync(Ct));
            }
            Assert.Equal(MailState.GivenUp, (await Mail(book)).State);
        }

        [Fact]
        public async Task A_refused_address_is_given_up_at_once()
        {
            await using var host = await MailHost.StartAsync(refuse: true);
            await using var book = await MoneyBook.OpenAsync(server, mail: Smtp(host.Port));
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Office.SendDueAsync(Ct);
            Assert.Equal(MailState.GivenUp, (await Mail(book)).State);
            Assert.Empty(host.Messages);
        }

        [Fact]
        public async Task A_server_without_encryption_gets_nothing_when_encryption_is_asked_for()
        {
            await using var host = await MailHost.StartAsync();
            await using var book = await MoneyBook.OpenAsync(server, mail: Smtp(host.Port) with { Tls = SecureSocketOptions.StartTls });
            await book.Sent((await book.Repair()).Number, byMail: true);
            await book.Office.SendDueAsync(Ct);
            Assert.Empty(host.Messages);
            Assert.Equal(MailState.Waiting, (await Mail(book)).State);
        }
    }

    [Fact]
    public async Task Sending_again_makes_a_new_letter_that_names_the_old_and_goes_to_the_corrected_address()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await book.Sent((await book.Repair()).Number, byMail: true);
        var old = await Mail(book);
        Task<Result> Again(Guid id) => book.Do<PostService, Result>(service => service.SendAgainAsync(id, Ct));
        Assert.Equal(new MailStillUnderWay(), (await Again(old.Id)).Failure);
        await book.Office.SendDueAsync(Ct);
        await book.Db(db => db.Customers.ExecuteUpdateAsync(set => set.SetProperty(customer => customer.Email, "new@example.com"), Ct));
        var results = await Task.WhenAll(Again(old.Id), Again(old.Id));
        Assert.Single(results, result => result.IsDone);
        Assert.Single(results, result => result.Failure == new MailRepeatedAlready());
        var repeat = await Mail(book);
        Assert.Equal((old.Id, "new@example.com", old.Body), (repeat.RepeatsId, repeat.ToAddress, repeat.Body));
    }

    [Fact]
    public async Task A_name_with_line_breaks_can_not_add_a_header()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await book.Sent((await book.Repair(name: "Eve\r\nBcc: all@example.com")).Number, byMail: true);
        await book.Office.SendDueAsync(Ct);
        var message = await MimeMessage.LoadAsync(Assert.Single(Directory.GetFiles(book.PostFolder)), Ct);
        Assert.Empty(message.Bcc);
        Assert.Equal("Eve  Bcc: all@example.com", Assert.Single(message.To.Mailboxes).Name);
        Assert.DoesNotContain(message.Headers, header => header.Field.Equals("Bcc", StringComparison.OrdinalIgnoreCase));
    }

    [Theory]
    [InlineData("not an address")]
    [InlineData("eve@example.com\nBcc: all@example.com")]
    [InlineData("Eve <eve@example.com>")]
    public async Task An_address_that_can_not_be_written_to_is_refused_before_anything_is_sent(string address)
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair(email: address)).Number;
        MoneyBook.Done(await book.Do<Services.Estimates.EstimateService, Result<int>>(service => service.SaveDraftAsync(number, book.Draft(MoneyBook.Labour(1, 1)), null, Ct)));
        var sent = await book.Do<Services.Estimates.EstimateSendService, Result<Services.Paperwork.IssuedPaper>>(service => service.SendAsync(number, true, Ct));
        Assert.Equal(new MailAddressUnusable(address), sent.Failure);
        Assert.Equal(0, await book.Db(db => db.Papers.CountAsync(Ct)));
    }

    [Fact]
    public async Task A_statement_sent_again_goes_to_the_corrected_address_too()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var customer = (await book.Repair(email: "mistyped@example.com")).CustomerId;
        MoneyBook.Done(await book.Do<StatementService, Result<Services.Paperwork.IssuedPaper>>(service => service.MakeAsync(customer, book.Today, book.Today, true, Ct)));
        await book.Office.SendDueAsync(Ct);
        await book.Db(db => db.Customers.ExecuteUpdateAsync(set => set.SetProperty(row => row.Email, "new@example.com"), Ct));
        var old = await Mail(book);
        MoneyBook.Done(await book.Do<PostService, Result>(service => service.SendAgainAsync(old.Id, Ct)));
        Assert.Equal((old.Id, "new@example.com"), ((await Mail(book)).RepeatsId, (await Mail(book)).ToAddress));
    }
}
