using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;

namespace RepairShop.Services.StripDown;

/// <summary>One change to a strip-down record: with the repair's row locked, so that two people at one repair write one after the
/// other, and the camera can't be called ready in between.</summary>
internal static class StripWork
{
    public static async Task<Result<T>> InAsync<T>(
        ShopDb db, Guid repairId, Func<Task<Result<T>>> work, CancellationToken cancel, params (string Constraint, Failure Failure)[] refusals)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        if (await WhyNotAsync(db, repairId, cancel) is { } closed)
            return closed;
        var done = await work();
        if (!done.IsDone)
            return done;
        var saved = await db.SaveAsync(cancel, refusals);
        if (!saved.IsDone)
            return saved.Failure;
        await transaction.CommitAsync(cancel);
        return done;
    }

    public static async Task<Result> InAsync(
        ShopDb db, Guid repairId, Func<Task<Result>> work, CancellationToken cancel, params (string Constraint, Failure Failure)[] refusals)
    {
        var done = await InAsync<bool>(db, repairId, async () => await work() is { Failure: { } refused } ? refused : true, cancel, refusals);
        return done.IsDone ? Result.Done : done.Failure;
    }

    private static async Task<Failure?> WhyNotAsync(ShopDb db, Guid repairId, CancellationToken cancel)
    {
        var repair = (await db.Repairs.FromSql($"select r.*, r.xmin from repairs r where r.id = {repairId} for update")
            .AsNoTracking().ToListAsync(cancel)).Single();
        return repair switch
        {
            { ReturnedAt: not null } => new CameraHasGoneHome(repair.Number),
            { ReadyAt: not null } => new RepairIsReady(repair.Number),
            _ => null,
        };
    }
}
