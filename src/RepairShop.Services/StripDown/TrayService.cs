using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;

namespace RepairShop.Services.StripDown;

/// <summary>Trays of a repair.</summary>
public sealed class TrayService(ShopDb db, TimeProvider clock)
{
    /// <param name="once">Made when the form was opened, so that the same form sent twice makes one tray.</param>
    public async Task<Result<Guid>> AddAsync(Guid repairId, TrayTyped typed, Guid once, CancellationToken cancel) =>
        await StripWork.InAsync<Guid>(db, repairId, async () =>
        {
            if (await db.Trays.AnyAsync(row => row.Id == once && row.RepairId == repairId && row.Name == TypedText.OneLine(typed.Name), cancel))
                return once;
            if (WhyNot(typed) is { } refused)
                return refused;
            var position = await db.Trays.Where(row => row.RepairId == repairId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
            var tray = new Tray { RepairId = repairId, Position = position + 1, MadeAt = clock.GetUtcNow() };
            if (!await db.Trays.AnyAsync(row => row.Id == once, cancel))
                tray.Id = once;
            Fill(tray, typed);
            db.Trays.Add(tray);
            return tray.Id;
        }, cancel, (TrayConfiguration.OneName, new TrayNameTaken(TypedText.OneLine(typed.Name))));

    public Task<Result> ChangeAsync(Guid repairId, Guid id, TrayTyped typed, CancellationToken cancel) => StripWork.InAsync(db, repairId, async () =>
    {
        if (await db.Trays.SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel) is not { } tray)
            return new TrayNotFound();
        if (WhyNot(typed) is { } refused)
            return refused;
        db.Entry(tray).Property(row => row.Version).OriginalValue = typed.Version;
        Fill(tray, typed);
        var outside = await db.StripSteps.AsNoTracking()
            .Where(row => row.TrayId == id && row.StruckOutAt == null && (row.CellRow > typed.Rows || row.CellColumn > typed.Columns)).FirstOrDefaultAsync(cancel);
        return outside is null ? Result.Done : new TrayTooSmall(tray.Name, $"{outside.Cell}");
    }, cancel, (TrayConfiguration.OneName, new TrayNameTaken(TypedText.OneLine(typed.Name))));

    public Task<Result> RemoveAsync(Guid repairId, Guid id, CancellationToken cancel) => StripWork.InAsync(db, repairId, async () =>
    {
        if (await db.Trays.SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel) is not { } tray)
            return new TrayNotFound();
        if (await db.StripSteps.AnyAsync(row => row.TrayId == id, cancel))
            return new TrayInUse(tray.Name);
        db.Trays.Remove(tray);
        return Result.Done;
    }, cancel);

    private static Failure? WhyNot(TrayTyped typed)
    {
        if (TypedText.OneLine(typed.Name).Length == 0)
            return new TrayNameMissing();
        if (typed.Rows is < 1 or > Tray.MostRows)
            return new TraySizeOutOfRange("Rows", typed.Rows, Tray.MostRows);
        return typed.Columns is < 1 or > Tray.MostColumns ? new TraySizeOutOfRange("Columns", typed.Columns, Tray.MostColumns) : null;
    }

    private static void Fill(Tray tray, TrayTyped typed) =>
        (tray.Name, tray.Rows, tray.Columns) = (TypedText.OneLine(typed.Name), typed.Rows, typed.Columns);
}
