using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.StripDown;

namespace RepairShop.Services.Demo;

/// <summary>Takes one camera of the seed apart, washes its parts and puts back what the seed says went back.</summary>
internal sealed class DemoStrip(DemoBook book, DemoStock stock, SeedStripDown seed)
{
    private const string Bench = "bench";

    public async Task TakeApartAsync(Guid repairId, string number)
    {
        var trays = new List<Guid>();
        foreach (var tray in seed.Trays)
            trays.Add(await book.DoAsync<TrayService, Guid>(Bench, service => service.AddAsync(
                repairId, new TrayTyped(tray.Name, tray.Rows, tray.Columns, 0), Guid.CreateVersion7(), book.Cancel)));
        foreach (var step in seed.Steps)
        {
            book.SetClock(book.Now.AddMinutes(2));
            var id = await book.DoAsync<StripStepService, Guid>(Bench, steps => steps.AddAsync(
                repairId, Facts(step, trays[0]), new StepEntry(Guid.CreateVersion7()), book.Cancel));
            if (step.Photo is { } photo)
                await stock.PhotoAsync(book, number, null, photo, step.What, id);
        }

        foreach (var (step, line) in await LinesAsync(repairId))
            await WashAsync(repairId, step, line);
    }

    /// <summary>The record backwards.</summary>
    public async Task PutTogetherAsync(Guid repairId)
    {
        foreach (var (step, line) in (await LinesAsync(repairId)).Reverse())
        {
            book.SetClock(book.Now.AddMinutes(3));
            if (line.BacksOffOnly && seed.Steps.Any(one => one.Fate != ItemFate.StillOut))
                await book.DoAsync<StripStepService>(Bench, steps => steps.TightenAsync(repairId, line.Id, true, book.Cancel));
            if (step.Fate == ItemFate.StillOut)
                continue;
            foreach (var lot in line.Lots)
            {
                var facts = new FateFacts(
                    lot.Kind == ItemKind.Shim ? ItemFate.Refitted : step.Fate, lot.Kind == ItemKind.Shim ? "" : step.FateNote, null,
                    step.ReplacedBy, step.Provenance, step.OldGoesBack);
                await book.DoAsync<StripItemService>(Bench, items => items.AccountAsync(repairId, lot.Id, null, facts, book.Cancel));
            }
        }
    }

    private async Task WashAsync(Guid repairId, SeedStep step, StepLine line)
    {
        if (step.Cleaned.Length == 0)
            return;
        var wash = new WashFacts(step.Cleaned, true, null, step.Lubrication, step.Lubricant, step.LubricatedWhere);
        foreach (var lot in line.Lots)
            await book.DoAsync<StripItemService>(Bench, items => items.WashAsync(repairId, lot.Id, wash, book.Cancel));
    }

    private async Task<IReadOnlyList<(SeedStep Step, StepLine Line)>> LinesAsync(Guid repairId)
    {
        IReadOnlyList<StepLine> lines = [];
        await book.DoAsync<StripDownService>(Bench, async record =>
        {
            lines = (await record.OfAsync(repairId, book.Cancel)).Steps;
            return Result.Done;
        });
        return [.. seed.Steps.Zip(lines)];
    }

    private static StepFacts Facts(SeedStep step, Guid tray) => new(
        step.What, step.Count, step.Held, step.Remember.Aggregate(Remember.None, (all, one) => all | one), step.Note,
        step.ShimPlace, step.ShimCount, step.ShimMillimetres, step.Cell.Length > 0 ? tray : null, step.Cell);
}
