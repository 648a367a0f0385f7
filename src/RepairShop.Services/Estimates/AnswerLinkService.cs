using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Estimates;

/// <summary>What somebody with a link may see and do, without signing in: one estimate, one answer.</summary>
public sealed class AnswerLinkService(ShopDb db, TimeProvider clock)
{
    /// <summary>The estimate's facts as they were sent; <see cref="AnswerLinkDead"/> whatever is wrong with the link.</summary>
    public async Task<Result<EstimateFacts>> OpenAsync(string token, CancellationToken cancel)
    {
        if (await FindAsync(token, cancel) is not { } found)
            return new AnswerLinkDead();
        var json = await db.Papers.AsNoTracking().Where(paper => paper.EstimateId == found.EstimateId).Select(paper => paper.Facts).SingleAsync(cancel);
        return (EstimateFacts)PaperJson.Read(PaperKind.Estimate, json);
    }

    public async Task<Result> AnswerAsync(string token, EstimateAnswer answer, string name, string note, CancellationToken cancel)
    {
        if (await FindAsync(token, cancel) is not { } found)
            return new AnswerLinkDead();
        var recorded = await EstimateAnswerService.RecordAsync(
            db, found.Number, found.Revision, new GivenAnswer(answer, name, AnswerWay.Link, note), clock.GetUtcNow(), cancel);
        // What stands in the way is told only to those whose link still is the right one: the field they left empty.
        return recorded.Failure is null or AnswererMissing ? recorded : new AnswerLinkDead();
    }

    private async Task<Found?> FindAsync(string token, CancellationToken cancel)
    {
        if (token.Length != AnswerToken.Characters)
            return null;
        var hash = AnswerToken.Hash(token);
        var now = clock.GetUtcNow();
        return await (
            from link in db.AnswerLinks.AsNoTracking()
            join estimate in db.Estimates on link.EstimateId equals estimate.Id
            join repair in db.Repairs on estimate.RepairId equals repair.Id
            where link.TokenHash == hash && link.RevokedAt == null && link.ExpiresAt > now && estimate.Answer == null
            select new Found(estimate.Id, estimate.Revision, repair.Number)).SingleOrDefaultAsync(cancel);
    }

    private sealed record Found(Guid EstimateId, int Revision, string Number);
}
