using System.Data;
using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using MimeKit;
using Npgsql;
using RepairShop.Domain.Post;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Paperwork;

namespace RepairShop.Services.Post;

/// <summary>
/// Takes letters out of the outbox and hands them over, each at most once. Before handing over, the row says so in a committed
/// transaction and an advisory lock is held on it; whoever finds such a row without its lock knows that its process died.
/// Such a letter may have been sent: a file is written again under the same name, anything else is left in doubt for a person.
/// </summary>
public sealed partial class PostOffice(IServiceScopeFactory scopes, MailSettings settings, FileStore files, TimeProvider clock, ILogger<PostOffice> log)
{
    /// <summary>Handles every letter that is due.</summary>
    /// <returns>How many were taken out.</returns>
    public async Task<int> SendDueAsync(CancellationToken cancel)
    {
        var taken = 0;
        while (await SendNextAsync(cancel))
            taken++;
        return taken;
    }

    /// <summary>Finds letters whose process died while handing over.</summary>
    public async Task RecoverAsync(CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        await db.Database.OpenConnectionAsync(cancel); // the advisory lock belongs to the connection
        await using var held = new LettingGo(db);
        var left = await db.Outbox.AsNoTracking().Where(mail => mail.State == MailState.HandingOver).Select(mail => mail.Id).ToListAsync(cancel);
        foreach (var id in left)
        {
            if (!await TryLockAsync(db, id, cancel))
                continue; // another process is at it right now
            var mail = await db.Outbox.SingleAsync(row => row.Id == id, cancel);
            await db.Entry(mail).ReloadAsync(cancel);
            if (mail.State == MailState.HandingOver)
            {
                LogLeft(id, settings.GoesToFolder);
                (mail.State, mail.LastError) = settings.GoesToFolder
                    ? (MailState.Waiting, "")
                    : (MailState.InDoubt, "The program stopped while handing this over. It may have been sent: check, then send it again.");
                mail.NextTryAt = clock.GetUtcNow();
                await db.SaveChangesAsync(cancel);
            }
        }
    }

    private async Task<bool> SendNextAsync(CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        await db.Database.OpenConnectionAsync(cancel);
        await using var held = new LettingGo(db);
        if (await TakeAsync(db, cancel) is not { } mail)
            return false;
        try
        {
            await HandOverAsync(db, mail, cancel);
            (mail.State, mail.SentAt, mail.LastError) = (MailState.Sent, clock.GetUtcNow(), "");
            LogSent(mail.Id, mail.Kind);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            Note(mail, failure);
        }
        catch (OperationCanceledException)
        {
            (mail.State, mail.LastError) = settings.GoesToFolder
                ? (MailState.Waiting, "")
                : (MailState.InDoubt, "The program was stopped while handing this over. It may have been sent: check, then send it again.");
        }
        // The outcome is kept even when the program is being stopped.
        await db.SaveChangesAsync(CancellationToken.None);
        return true;
    }

    /// <summary>Marks the next due letter as being handed over, in a committed transaction, with its lock held.</summary>
    private async Task<OutboxMail?> TakeAsync(ShopDb db, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        var now = clock.GetUtcNow();
        var mail = (await db.Outbox.FromSql(
            $"""
            select o.*, o.xmin from outbox o
            where o.state = 'Waiting' and o.next_try_at <= {now}
            order by o.next_try_at, o.id
            limit 1 for update skip locked
            """).ToListAsync(cancel)).SingleOrDefault();
        if (mail is null || !await TryLockAsync(db, mail.Id, cancel))
            return null;
        (mail.State, mail.HandingOverAt, mail.Attempts) = (MailState.HandingOver, now, mail.Attempts + 1);
        await db.SaveChangesAsync(cancel);
        await work.CommitAsync(cancel);
        return mail;
    }

    private async Task HandOverAsync(ShopDb db, OutboxMail mail, CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var message = LetterMessage.Of(
            mail, shop.Name, settings.From.Length > 0 ? settings.From : shop.Email, await AttachmentsAsync(db, mail, cancel));
        if (settings.GoesToFolder)
            await LetterFolder.WriteAsync(settings.Folder, mail, message, cancel);
        else
            await SmtpAsync(message, cancel);
    }

    private async Task<IReadOnlyList<Attachment>> AttachmentsAsync(ShopDb db, OutboxMail mail, CancellationToken cancel)
    {
        var papers = await db.Papers.AsNoTracking().Where(paper => mail.PaperIds.Contains(paper.Id)).OrderBy(paper => paper.Id).ToListAsync(cancel);
        var attachments = new List<Attachment>();
        foreach (var paper in papers)
        {
            attachments.Add(new Attachment(PaperNames.FileName(paper), await files.ReadAsync(paper.FileHash, cancel)));
            if (paper.EInvoiceHash.Length > 0)
                attachments.Add(new Attachment(PaperNames.EInvoiceFileName(paper), await files.ReadAsync(paper.EInvoiceHash, cancel), "xml"));
        }
        return attachments;
    }

    private async Task SmtpAsync(MimeMessage message, CancellationToken cancel)
    {
        using var client = new SmtpClient { Timeout = 60_000 };
        try
        {
            await client.ConnectAsync(settings.Host, settings.Port, settings.Tls, cancel);
            if (settings.User.Length > 0)
                await client.AuthenticateAsync(settings.User, settings.Password, cancel);
        }
        catch (Exception failure)
        {
            throw new NotHandedOverException(failure.Message, failure is AuthenticationException, failure);
        }
        await client.SendAsync(message, cancel);
        try
        {
            await client.DisconnectAsync(quit: true, CancellationToken.None);
        }
        catch (Exception goodbye) when (goodbye is IOException or SmtpProtocolException)
        {
            LogGoodbye(goodbye.Message); // the letter is accepted already
        }
    }

    /// <summary>What a failure means: tried again, given up, or in doubt when the server may have taken the letter.</summary>
    private void Note(OutboxMail mail, Exception failure)
    {
        LogFailed(mail.Id, mail.Attempts, failure.Message);
        mail.LastError = failure.Message;
        var isFinal = failure is SmtpCommandException { StatusCode: >= (SmtpStatusCode)500 } || mail.Attempts >= OutboxRules.MostAttempts;
        var notTaken = settings.GoesToFolder || failure is NotHandedOverException or SmtpCommandException or IOException { InnerException: FileNotFoundException } or FileNotFoundException;
        if (!notTaken)
        {
            (mail.State, mail.LastError) = (MailState.InDoubt, $"{failure.Message} It may have been sent: check, then send it again.");
            return;
        }
        mail.State = isFinal ? MailState.GivenUp : MailState.Waiting;
        mail.NextTryAt = clock.GetUtcNow() + OutboxRules.WaitAfter(mail.Attempts);
    }

    private static async Task<bool> TryLockAsync(ShopDb db, Guid id, CancellationToken cancel) =>
        (await db.Database.SqlQuery<bool>($"select pg_try_advisory_lock({KeyOf(id)})").ToListAsync(cancel)).Single();

    // The last eight bytes of a version 7 id are random.
    private static long KeyOf(Guid id) => BitConverter.ToInt64(id.ToByteArray(), 8);

    [LoggerMessage(LogLevel.Information, "Letter {Mail} ({Kind}) sent")]
    private partial void LogSent(Guid mail, MailKind kind);

    [LoggerMessage(LogLevel.Warning, "Letter {Mail} failed at attempt {Attempt}: {Reason}")]
    private partial void LogFailed(Guid mail, int attempt, string reason);

    [LoggerMessage(LogLevel.Warning, "Letter {Mail} was left while handing over; as a file it is written again: {AsFile}")]
    private partial void LogLeft(Guid mail, bool asFile);

    [LoggerMessage(LogLevel.Debug, "The mail server's goodbye failed: {Reason}")]
    private partial void LogGoodbye(string reason);
}

/// <summary>Whatever went wrong, no letter's lock goes back into the pool with its connection: it would stay there, and nobody
/// could tell that letter from one that is being handed over.</summary>
internal sealed class LettingGo(ShopDb db) : IAsyncDisposable
{
    public async ValueTask DisposeAsync()
    {
        if (db.Database.GetDbConnection().State != ConnectionState.Open)
            return; // a lost connection has let go by itself
        try
        {
            await db.Database.ExecuteSqlAsync($"select pg_advisory_unlock_all()", CancellationToken.None);
        }
        catch (NpgsqlException)
        {
            // Lost just now. What went wrong before is told instead.
        }
    }
}

/// <summary>The mail server was not reached, or let nobody in: the letter is certainly not sent.</summary>
internal sealed class NotHandedOverException(string message, bool isSignIn, Exception inner)
    : Exception(isSignIn ? $"The mail server refused the sign-in: {message}" : message, inner);
