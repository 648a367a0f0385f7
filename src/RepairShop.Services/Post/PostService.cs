using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Post;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Post;

/// <summary>A letter in the list, newest first.</summary>
public sealed record MailView(
    Guid Id, string? RepairNumber, MailKind Kind, string ToName, string ToAddress, string Subject, string Body, MailState State, int Attempts,
    DateTimeOffset CreatedAt, DateTimeOffset NextTryAt, DateTimeOffset? SentAt, string LastError, Guid? RepeatsId, bool MayRepeat);

/// <param name="Letters"></param>
/// <param name="Older">Cursor for the next page; null at the end.</param>
/// <param name="GoesToFolder">True while no mail server is set and letters become files.</param>
public sealed record MailPage(IReadOnlyList<MailView> Letters, Guid? Older, bool GoesToFolder);

/// <summary>What became of the letters, and sending one again.</summary>
public sealed class PostService(ShopDb db, TimeProvider clock, MailSettings settings)
{
    private const int PageSize = 50;

    /// <param name="before">Cursor from the page before; ids are in the order of writing.</param>
    /// <param name="onlyOpen">Not sent yet, in doubt or given up.</param>
    /// <param name="cancel"></param>
    public async Task<MailPage> ListAsync(Guid? before, bool onlyOpen, CancellationToken cancel)
    {
        var mails = db.Outbox.AsNoTracking();
        if (before is { } cursor)
            mails = mails.Where(mail => mail.Id.CompareTo(cursor) < 0);
        if (onlyOpen)
            mails = mails.Where(mail => mail.State != MailState.Sent && !db.Outbox.Any(other => other.RepeatsId == mail.Id));
        var rows = await Views(mails).Take(PageSize + 1).ToListAsync(cancel);
        return new MailPage([.. rows.Take(PageSize)], rows.Count > PageSize ? rows[PageSize - 1].Id : null, settings.GoesToFolder);
    }

    public async Task<IReadOnlyList<MailView>> OfRepairAsync(Guid repairId, CancellationToken cancel) =>
        await Views(db.Outbox.AsNoTracking().Where(mail => mail.RepairId == repairId)).ToListAsync(cancel);

    /// <summary>Writes the same letter once more, as a new row that names the old one.</summary>
    public async Task<Result> SendAgainAsync(Guid id, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        var mail = (await db.Outbox.FromSql($"select o.*, o.xmin from outbox o where o.id = {id} for update").ToListAsync(cancel)).SingleOrDefault();
        if (mail is null)
            return new NoSuchMail();
        if (OutboxRules.MayRepeat(mail, await db.Outbox.AnyAsync(row => row.RepeatsId == id, cancel)) is { IsDone: false } refused)
            return refused;
        var now = clock.GetUtcNow();
        db.Outbox.Add(new OutboxMail
        {
            RepairId = mail.RepairId,
            Kind = mail.Kind,
            ToName = mail.ToName,
            ToAddress = await AddressNowAsync(mail, cancel),
            Subject = mail.Subject,
            Body = mail.Body,
            PaperIds = mail.PaperIds,
            CreatedAt = now,
            NextTryAt = now,
            RepeatsId = mail.Id,
        });
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    /// <summary>A mistyped address is corrected with the customer, then the letter is sent again: to the new one.</summary>
    private async Task<string> AddressNowAsync(OutboxMail mail, CancellationToken cancel)
    {
        // A statement or reminder is about a customer and no repair: its paper names whom.
        var whose = mail.RepairId is { } repairId
            ? db.Repairs.Where(repair => repair.Id == repairId).Select(repair => (Guid?)repair.CustomerId)
            : db.Papers.Where(paper => mail.PaperIds.Contains(paper.Id)).Select(paper => paper.CustomerId);
        var now = await db.Customers.Where(customer => whose.Contains(customer.Id)).Select(customer => customer.Email).SingleOrDefaultAsync(cancel);
        return now is { Length: > 0 } && LetterService.IsUsable(now) ? now : mail.ToAddress;
    }

    private IQueryable<MailView> Views(IQueryable<OutboxMail> mails) => mails.OrderByDescending(mail => mail.Id).Select(mail => new MailView(
        mail.Id,
        db.Repairs.Where(repair => repair.Id == mail.RepairId).Select(repair => repair.Number).FirstOrDefault(),
        mail.Kind, mail.ToName, mail.ToAddress, mail.Subject, mail.Body, mail.State, mail.Attempts,
        mail.CreatedAt, mail.NextTryAt, mail.SentAt, mail.LastError, mail.RepeatsId,
        mail.State != MailState.Waiting && mail.State != MailState.HandingOver && !db.Outbox.Any(other => other.RepeatsId == mail.Id)));
}
