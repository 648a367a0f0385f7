using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.StripDown;

/// <summary>A repair on the bench with one tray of 4 × 6, and short ways to work on it.</summary>
internal sealed class StripBench(Workshop shop, Repair repair, Guid tray) : IAsyncDisposable
{
    public static CancellationToken Cancel => Workshop.Cancel;

    public Workshop Shop => shop;

    public Repair Repair => repair;

    public Guid Tray => tray;

    public static async Task<StripBench> OpenAsync(PostgresServer server)
    {
        var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var tray = await shop.Do<TrayService, Result<Guid>>(trays => trays.AddAsync(repair.Id, new TrayTyped("1", 4, 6, 0), Guid.CreateVersion7(), Cancel));
        Assert.Null(tray.Failure);
        return new StripBench(shop, repair, tray.Value);
    }

    public StepFacts Some(string what, string cell = "", int count = 1) =>
        new(what, count, HeldBy.Screw, Remember.None, "", "", 0, null, cell.Length > 0 ? tray : null, cell);

    public Task<Result<Guid>> TryAdd(StepFacts facts, StepEntry? entry = null, Guid? by = null) =>
        shop.Do<StripStepService, Result<Guid>>(steps => steps.AddAsync(repair.Id, facts, entry ?? new StepEntry(Guid.CreateVersion7()), Cancel), by);

    public async Task<Guid> Add(StepFacts facts, StepEntry? entry = null, Guid? by = null)
    {
        var added = await TryAdd(facts, entry, by);
        Assert.Null(added.Failure);
        return added.Value;
    }

    public Task<StripRecord> Record() => shop.Do<StripDownService, StripRecord>(record => record.OfAsync(repair.Id, Cancel));

    public async Task<StepLine> Line(Guid id) => (await Record()).Steps.Single(step => step.Id == id);

    public Task<Result> Steps(Func<StripStepService, Task<Result>> work, Guid? by = null) => shop.Do(work, by);

    public Task<Result> Items(Func<StripItemService, Task<Result>> work, Guid? by = null) => shop.Do(work, by);

    public Task<Result> Leave(Func<LeavingService, Task<Result>> work) => shop.Do(work);

    public ValueTask DisposeAsync() => shop.DisposeAsync();
}
