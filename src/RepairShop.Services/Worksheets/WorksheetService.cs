using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Database;
using RepairShop.Services.Findings;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Worksheets;

/// <summary>A repair with what worksheets can fill in by themselves.</summary>
/// <param name="Dial">The camera's marked speeds; empty when nobody wrote them down.</param>
/// <param name="Texts">What was written about camera and job, to see which cautions are due.</param>
public sealed record WorksheetRepair(RepairHead Head, IReadOnlyList<string> Dial, IReadOnlyList<string> Texts);

/// <summary>Opens a repair for a worksheet, and keeps a worksheet's result as a finding.</summary>
public sealed class WorksheetService(ShopDb db, WorkService work, FindingService findings)
{
    /// <summary>Null when there is no repair of that number.</summary>
    public async Task<WorksheetRepair?> OpenAsync(string number, CancellationToken cancel)
    {
        if (await work.FindAsync(number, cancel) is not { } head)
            return null;
        var camera = await db.Repairs.Where(repair => repair.Id == head.Id)
            .Join(db.Cameras, repair => repair.CameraId, one => one.Id, (_, one) => new { one.MarkedSpeeds, one.Notes, one.Lens, one.Shutter })
            .SingleAsync(cancel);
        var written = await db.Findings.Where(row => row.RepairId == head.Id && row.RemovedAt == null)
            .Select(row => row.Component + " " + row.Text).ToListAsync(cancel);
        return new WorksheetRepair(
            head, camera.MarkedSpeeds, [head.Complaint, head.Camera, camera.Notes, camera.Lens, camera.Shutter, .. written]);
    }

    /// <param name="repairId">The repair.</param>
    /// <param name="finding">What the worksheet found.</param>
    /// <param name="once">Made when the sheet was worked out, so that the button pressed twice keeps it once.</param>
    /// <param name="cancel">Stops.</param>
    public Task<Result<Guid>> KeepAsync(Guid repairId, WorksheetFinding finding, Guid once, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var gauge = finding.Gauge;
        return findings.AddAsync(
            repairId,
            new FindingTyped(
                finding.Component, finding.Condition, finding.Text, "", finding.GaugeName, gauge.Value, gauge.Unit, gauge.Low, gauge.High, "", true, 0),
            once, cancel);
    }
}
