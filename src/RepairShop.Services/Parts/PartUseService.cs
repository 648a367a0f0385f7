using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Parts;

/// <summary>Parts fitted in a repair: from stock, or a one-off line.</summary>
public sealed class PartUseService(ShopDb db, PartService stock, CurrentPerson person, TimeProvider clock)
{
    private const string PrimaryKey = "pk_part_uses";

    private static readonly Failure SentTwice = new PartUseNotFound();

    public async Task<PartsView> ForRepairAsync(Guid repairId, CancellationToken cancel)
    {
        var lines = await (
            from use in db.PartUses.AsNoTracking()
            join part in db.Parts on use.PartId equals part.Id into parts
            from part in parts.DefaultIfEmpty()
            join finding in db.Findings on use.FindingId equals finding.Id into findings
            from finding in findings.DefaultIfEmpty()
            where use.RepairId == repairId && use.RemovedAt == null
            orderby use.UsedAt
            select new PartUseLine(
                use.Id, use.PartId, part == null ? "" : part.Number, use.Text, use.Quantity, use.Unit, use.Provenance, use.UnitPrice,
                finding == null ? "" : finding.Component)).ToListAsync(cancel);
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        return new PartsView(
            lines, lines.Sum(line => line.Price), shop.Currency, shop.PricesIncludeTax, await SuggestionsAsync(cancel),
            await db.Findings.Where(finding => finding.RepairId == repairId && finding.RemovedAt == null).OrderBy(finding => finding.Position)
                .Select(finding => new FindingChoice(finding.Id, finding.Component)).ToListAsync(cancel));
    }

    /// <summary>Fits a part. What comes from stock is taken out of it in the same transaction: if it is not there, nothing happens.</summary>
    /// <param name="once">Made when the form was opened, so that the same form sent twice takes one part.</param>
    public async Task<Result<Guid>> UseAsync(Guid repairId, PartUseTyped typed, Guid once, CancellationToken cancel)
    {
        if (!StockAmount.IsQuantity(typed.Quantity))
            return new QuantityOutOfRange("Quantity", typed.Quantity);
        foreach (var (name, amount) in new[] { ("UnitPrice", typed.UnitPrice), ("UnitCost", typed.UnitCost) })
        {
            if (amount is { } given && !StockAmount.IsPrice(given))
                return new AmountOutOfRange(name, given);
        }

        var repair = await db.Repairs.AsNoTracking().SingleAsync(row => row.Id == repairId, cancel);
        if (repair.ReturnedAt is not null)
            return new CameraHasGoneHome(repair.Number);
        if (typed.FindingId is { } findingId && !await db.Findings.AnyAsync(row => row.Id == findingId && row.RepairId == repairId, cancel))
            return new FindingOfAnotherRepair();
        var use = new PartUse { Id = once, RepairId = repairId, FindingId = typed.FindingId, Quantity = typed.Quantity, UsedAt = clock.GetUtcNow(), UsedBy = person.RequiredId };
        await TaxAsync(use, cancel);
        return typed.Part.Trim().Length == 0 ? await OneOffAsync(use, typed, cancel) : await FromStockAsync(use, typed, cancel);
    }

    /// <summary>Takes the line off the repair; what came from stock goes back there.</summary>
    public async Task<Result> TakeOffAsync(Guid repairId, Guid useId, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        // Two people taking off the same line: the second waits here and then finds it gone, so nothing goes back twice.
        var locked = await db.PartUses.FromSql($"select u.*, u.xmin from part_uses u where u.id = {useId} for update").ToListAsync(cancel);
        if (locked is not [{ RemovedAt: null } use] || use.RepairId != repairId)
            return new PartUseNotFound();
        var removed = await (
            from lot in db.StripItems
            join step in db.StripSteps on lot.StepId equals step.Id
            where lot.ReplacedByUseId == useId
            select step.What).FirstOrDefaultAsync(cancel);
        if (removed is not null)
            return new PartStandsForRemoved(use.Text, removed);
        use.RemovedAt = clock.GetUtcNow();
        if (use.PartId is { } partId)
            db.StockMovements.Add(Movement(use, partId, MovementKind.PutBack, use.Quantity));
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    private async Task<Result<Guid>> OneOffAsync(PartUse use, PartUseTyped typed, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(typed.Text))
            return new PartTextMissing();
        (use.Text, use.Unit, use.Provenance) = (typed.Text.Trim(), typed.Unit.Trim(), typed.Provenance);
        (use.UnitCost, use.UnitPrice) = (typed.UnitCost ?? 0, typed.UnitPrice ?? 0);
        if (await SentBeforeAsync(use, cancel))
            return use.Id;
        db.PartUses.Add(use);
        var saved = await db.SaveAsync(cancel, (PrimaryKey, SentTwice));
        return saved.IsDone || saved.Failure == SentTwice ? use.Id : saved.Failure;
    }

    private async Task<Result<Guid>> FromStockAsync(PartUse use, PartUseTyped typed, CancellationToken cancel)
    {
        var meant = await MeantAsync(typed.Part.Trim(), cancel);
        if (!meant.IsDone)
            return meant.Failure;
        var part = meant.Value;
        if (part.RetiredAt is not null)
            return new PartIsRetired(PartService.Words(part));
        (use.PartId, use.Text, use.Unit, use.Provenance) = (part.Id, part.Name, typed.Unit.Trim(), part.Provenance);
        (use.UnitCost, use.UnitPrice) = (typed.UnitCost ?? part.Cost, typed.UnitPrice ?? part.Price);
        if (await SentBeforeAsync(use, cancel))
            return use.Id;
        db.PartUses.Add(use);
        db.StockMovements.Add(Movement(use, part.Id, MovementKind.Used, -use.Quantity));
        var notThere = new NotEnoughOnHand("", 0, 0);
        var saved = await db.SaveAsync(cancel, (PrimaryKey, SentTwice), (PartService.NotBelowZero, notThere));
        if (saved.IsDone || saved.Failure == SentTwice)
            return use.Id;
        if (saved.Failure != notThere)
            return saved.Failure;
        var onHand = await db.Parts.Where(row => row.Id == part.Id).Select(row => row.OnHand).SingleAsync(cancel);
        return new NotEnoughOnHand(PartService.Words(part), onHand, use.Quantity);
    }

    /// <summary>The same form again; a changed one (the back button keeps the token) is a line of its own.</summary>
    private async Task<bool> SentBeforeAsync(PartUse use, CancellationToken cancel)
    {
        if (await db.PartUses.AsNoTracking().SingleOrDefaultAsync(row => row.Id == use.Id, cancel) is not { } earlier)
            return false;
        var same = (earlier.RepairId, earlier.PartId, earlier.Text, earlier.Quantity, earlier.UnitPrice, earlier.FindingId, earlier.RemovedAt)
            == (use.RepairId, use.PartId, use.Text, use.Quantity, use.UnitPrice, use.FindingId, null);
        if (!same)
            use.Id = Guid.CreateVersion7();
        return same;
    }

    /// <summary>By number, as picked from the list ("P0012 · cell spring"), or by words that fit one part only.</summary>
    private async Task<Result<Part>> MeantAsync(string typed, CancellationToken cancel)
    {
        var number = typed.Split(" · ")[0].Trim();
        var byNumber = await db.Parts.AsNoTracking().FirstOrDefaultAsync(part => EF.Functions.ILike(part.Number, Literal(number)), cancel);
        if (byNumber is not null)
            return byNumber;
        var byWords = await stock.Found(typed).Where(part => part.RetiredAt == null).OrderBy(part => part.Name).Take(2).ToListAsync(cancel);
        return byWords switch
        {
            [var only] => only,
            [] => new PartNotInStock(typed),
            _ => new PartNotClear(typed),
        };
    }

    private static string Literal(string text) => text.Replace(@"\", @"\\", StringComparison.Ordinal)
        .Replace("%", @"\%", StringComparison.Ordinal).Replace("_", @"\_", StringComparison.Ordinal);

    private async Task TaxAsync(PartUse use, CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var rate = shop.TaxRegistered
            ? await db.TaxRates.AsNoTracking().ValidOn(shop.Today(use.UsedAt)).FirstOrDefaultAsync(row => row.IsDefault, cancel)
            : null;
        (use.TaxName, use.TaxPercent) = (rate?.Name ?? "", rate?.Percent ?? 0);
    }

    private StockMovement Movement(PartUse use, Guid partId, MovementKind kind, decimal quantity) => new()
    {
        PartId = partId,
        Kind = kind,
        Quantity = quantity,
        UnitCost = use.UnitCost,
        PartUseId = use.Id,
        At = clock.GetUtcNow(),
        By = person.RequiredId,
    };

    /// <summary>What this shop fits most, then the rest of the list by name.</summary>
    private async Task<IReadOnlyList<string>> SuggestionsAsync(CancellationToken cancel) =>
        await db.Parts.Where(part => part.RetiredAt == null && part.OnHand > 0)
            .OrderByDescending(part => db.PartUses.Count(use => use.PartId == part.Id && use.RemovedAt == null)).ThenBy(part => part.Name)
            .Take(200).Select(part => part.Number + " · " + part.Name).ToListAsync(cancel);
}
