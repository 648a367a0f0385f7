using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Estimates;
using RepairShop.Services.Database;

namespace RepairShop.Services.Repairs;

/// <summary>What stands on top of every page of work on one repair.</summary>
public sealed record RepairHead(Guid Id, string Number, string Camera, string Complaint, bool HasShutter, bool Returned);

/// <summary>The next thing the job is waiting for at the bench, as one button.</summary>
/// <param name="Verb">What the button says.</param>
/// <param name="Path">Below the repair's own address: checks/as-received.</param>
public sealed record BenchStep(string Verb, string Path);

/// <summary>Finds the repair behind a number and says what to do next on the bench.</summary>
public sealed class WorkService(ShopDb db)
{
    /// <summary>Null when there is no repair of that number.</summary>
    public async Task<RepairHead?> FindAsync(string number, CancellationToken cancel) => await (
        from repair in db.Repairs.AsNoTracking()
        join camera in db.Cameras on repair.CameraId equals camera.Id
        where repair.Number == number
        select new RepairHead(
            repair.Id, repair.Number, (camera.Maker + " " + camera.Model + " " + camera.Variant).Trim(), repair.Complaint,
            camera.ShutterKind != Domain.Cameras.ShutterKind.None, repair.ReturnedAt != null)).SingleOrDefaultAsync(cancel);

    /// <summary>In the order a job goes; null when nothing at the bench is missing.</summary>
    public async Task<BenchStep?> NextAsync(RepairHead head, CancellationToken cancel)
    {
        if (head.Returned)
            return null;
        if (!await CheckedAsync(head.Id, Phase.AsReceived, cancel))
            return new BenchStep("Check it as received", "checks/as-received");
        if (head.HasShutter && !await MeasuredAsync(head.Id, Phase.AsReceived, cancel))
            return new BenchStep("Measure the shutter as received", "shutter/as-received");
        if (!await db.Findings.AnyAsync(row => row.RepairId == head.Id && row.RemovedAt == null, cancel))
            return new BenchStep("Write the first finding", "findings");
        if (head.HasShutter && !await MeasuredAsync(head.Id, Phase.AfterService, cancel))
            return new BenchStep("Measure the shutter after service", "shutter/after-service");
        return await CheckedAsync(head.Id, Phase.AfterService, cancel) ? null : new BenchStep("Check it after service", "checks/after-service");
    }

    /// <summary>The customer said no to the latest offer: what is apart goes back as it came.</summary>
    public Task<bool> IsDeclinedAsync(Guid repairId, CancellationToken cancel) =>
        db.Estimates.Where(row => row.RepairId == repairId && row.SentAt != null).OrderByDescending(row => row.Revision).Take(1)
            .AnyAsync(row => row.Answer == EstimateAnswer.Declined, cancel);

    private Task<bool> CheckedAsync(Guid repairId, Phase phase, CancellationToken cancel) =>
        db.CheckResults.AnyAsync(row => row.RepairId == repairId && row.Phase == phase && row.Outcome != CheckOutcome.NotTested, cancel);

    private Task<bool> MeasuredAsync(Guid repairId, Phase phase, CancellationToken cancel) =>
        db.Readings.AnyAsync(row => row.StruckOutReason == null
            && db.ShutterTests.Any(test => test.Id == row.ShutterTestId && test.RepairId == repairId && test.Phase == phase), cancel);
}
