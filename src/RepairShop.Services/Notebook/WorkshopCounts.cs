using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Findings;
using RepairShop.Services.Database;

namespace RepairShop.Services.Notebook;

/// <summary>Counts what the workshop met on a model from its own findings.</summary>
internal static class WorkshopCounts
{
    private const int EarlierShown = 12;
    private const int FaultsShown = 40;

    public static async Task<WorkshopFigures> OfAsync(ShopDb db, string maker, string model, CancellationToken cancel)
    {
        var (lowMaker, lowModel) = (maker.ToLowerInvariant(), model.ToLowerInvariant());
#pragma warning disable CA1304, CA1311, CA1862 // lower() of the database, for which there is an index
        var repairs = from repair in db.Repairs
                      join camera in db.Cameras on repair.CameraId equals camera.Id
                      where camera.Maker.ToLower() == lowMaker && camera.Model.ToLower() == lowModel
                      select repair;
        var findings = from finding in db.Findings
                       join repair in repairs on finding.RepairId equals repair.Id
                       where finding.RemovedAt == null
                       select finding;
        var faults = await findings.Where(row => row.Condition != Condition.Sound)
            .GroupBy(row => row.Component.Trim().ToLower())
            .Select(group => new FaultMet(group.Max(row => row.Component)!, group.Select(row => row.RepairId).Distinct().Count()))
            .ToListAsync(cancel);
        var gauges = await findings.Where(row => row.GaugeValue != null && row.GaugeName != "")
            .GroupBy(row => new { Name = row.GaugeName.Trim().ToLower(), row.GaugeUnit })
            .Select(group => new MeasuredHere(
                group.Max(row => row.GaugeName)!, group.Key.GaugeUnit, group.Count(), group.Min(row => row.GaugeValue!.Value), group.Max(row => row.GaugeValue!.Value)))
            .ToListAsync(cancel);
#pragma warning restore CA1304, CA1311, CA1862
        var earlier = await (
            from repair in repairs
            join stage in db.RepairStages on repair.Id equals stage.RepairId
            orderby repair.BookedAt descending
            select new EarlierRepair(repair.Number, repair.BookedAt, repair.Complaint, stage.Stage)).Take(EarlierShown).ToListAsync(cancel);
        return new WorkshopFigures(
            await repairs.CountAsync(cancel),
            await findings.Select(row => row.RepairId).Distinct().CountAsync(cancel),
            [.. faults.OrderByDescending(fault => fault.Repairs).ThenBy(fault => fault.Component, StringComparer.OrdinalIgnoreCase).Take(FaultsShown)],
            gauges, earlier);
    }
}
