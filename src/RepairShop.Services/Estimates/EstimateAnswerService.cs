using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Estimates;

/// <summary>What the customer said: to an estimate, or to spending more.</summary>
public sealed class EstimateAnswerService(ShopDb db, CurrentPerson person, TimeProvider clock, CeilingService ceilings)
{
    public async Task<Result> AnswerAsync(
        string number, int revision, EstimateAnswer answer, string by, AnswerWay how, string note, CancellationToken cancel)
    {
        if (how == AnswerWay.Link)
            return new AnswerWayNotByHand(how);
        return await RecordAsync(db, number, revision, new GivenAnswer(answer, by, how, note), clock.GetUtcNow(), cancel);
    }

    /// <summary>The customer agrees to a higher limit without a new estimate.</summary>
    public async Task<Result> ConsentAsync(string number, decimal upTo, string givenBy, AnswerWay how, string reason, CancellationToken cancel)
    {
        if (how == AnswerWay.Link)
            return new AnswerWayNotByHand(how);
        if (string.IsNullOrWhiteSpace(givenBy))
            return new ConsentGiverMissing();
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var ceiling = await ceilings.OfAsync(file.Repair.Id, cancel);
        if (EstimateRules.MayConsent(upTo, ceiling.UpTo, file.Shop.Currency) is { IsDone: false } refused)
            return refused;
        db.FurtherConsents.Add(new FurtherConsent
        {
            RepairId = file.Repair.Id,
            UpTo = upTo,
            GivenBy = givenBy.Trim(),
            How = how,
            Reason = reason.Trim(),
            GivenAt = clock.GetUtcNow(),
            RecordedBy = person.RequiredId,
        });
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    /// <summary>The owner takes the customer's link back; the estimate stays as it is and is answered by hand.</summary>
    public async Task<Result> RevokeLinkAsync(string number, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        await EstimateSendService.RevokeLinksAsync(db, file.Repair.Id, clock.GetUtcNow(), cancel);
        return await db.SaveAsync(cancel);
    }

    internal static async Task<Result> RecordAsync(
        ShopDb db, string number, int revision, GivenAnswer given, DateTimeOffset now, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(given.By))
            return new AnswererMissing();
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var estimates = await db.Estimates.Where(row => row.RepairId == file.Repair.Id).ToListAsync(cancel);
        if (estimates.SingleOrDefault(row => row.Revision == revision) is not { } estimate)
            return new NoSuchEstimate(revision);
        var latest = estimates.Where(row => row.SentAt is not null).Select(row => row.Revision).DefaultIfEmpty().Max();
        if (EstimateRules.MayAnswer(estimate, latest, file.Shop.Today(now)) is { IsDone: false } refused)
            return refused;
        (estimate.Answer, estimate.AnsweredAt) = (given.Answer, now);
        (estimate.AnsweredBy, estimate.AnsweredHow, estimate.AnswerNote) = (given.By.Trim(), given.How, given.Note.Trim());
        await EstimateSendService.RevokeLinksAsync(db, file.Repair.Id, now, cancel);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }
}

/// <summary>One answer to an estimate, however it came.</summary>
internal sealed record GivenAnswer(EstimateAnswer Answer, string By, AnswerWay How, string Note);
