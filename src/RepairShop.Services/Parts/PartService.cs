using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Labour;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Parts;

/// <summary>The stock list: parts, what is on hand, and the ledger behind it.</summary>
public sealed class PartService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    public const int PageSize = 50;

    internal const string NotBelowZero = "ck_parts_on_hand";

    public async Task<StockList> ListAsync(StockQuestion question, CancellationToken cancel)
    {
        var parts = Found(question.Text.Trim()).Where(part => (part.RetiredAt != null) == question.Retired);
        if (question.ToReorder)
            parts = parts.Where(part => part.ReorderLevel > 0 && part.OnHand <= part.ReorderLevel);
        var count = await parts.CountAsync(cancel);
        var pages = Math.Max(1, (count + PageSize - 1) / PageSize);
        var page = Math.Clamp(question.Page, 1, pages);
        var lines = await parts.OrderBy(part => part.Name).ThenBy(part => part.Number).Skip((page - 1) * PageSize).Take(PageSize)
            .Select(part => new StockLine(
                part.Id, part.Number, part.Name, part.Fits, part.Provenance, part.Price, part.Place, part.OnHand, part.ReorderLevel))
            .ToListAsync(cancel);
        return new StockList(lines, count, page, pages, await CurrencyAsync(cancel));
    }

    public async Task<Result<PartView>> GetAsync(Guid id, CancellationToken cancel)
    {
        var part = await db.Parts.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (part is null)
            return new PartNotFound();
        var zone = await LabourService.ZoneAsync(db, cancel);
        var movements = await (
            from line in db.StockMovements.AsNoTracking()
            join account in db.Users on line.By equals account.Id into people
            from account in people.DefaultIfEmpty()
            join use in db.PartUses on line.PartUseId equals use.Id into uses
            from use in uses.DefaultIfEmpty()
            join repair in db.Repairs on use.RepairId equals repair.Id into repairs
            from repair in repairs.DefaultIfEmpty()
            where line.PartId == id
            orderby line.At descending, line.Id descending
            select new { line, By = account == null ? "" : account.DisplayName, Repair = repair == null ? null : repair.Number }).Take(500).ToListAsync(cancel);
        var after = part.OnHand;
        var ledger = new List<LedgerLine>();
        foreach (var movement in movements)
        {
            var line = movement.line;
            ledger.Add(new LedgerLine(
                WallClock.OnTheWall(line.At, zone), line.Kind, line.Quantity, after, line.UnitCost, line.Note, movement.By, movement.Repair));
            after -= line.Quantity;
        }

        var typed = new PartTyped(
            part.Number, part.Name, part.Fits, part.Provenance, part.Cost, part.Price, part.Place, part.ReorderLevel, part.Version);
        return new PartView(part.Id, typed, part.OnHand, part.RetiredAt is not null, ledger, await CurrencyAsync(cancel));
    }

    public async Task<Result<Guid>> AddAsync(PartTyped typed, CancellationToken cancel)
    {
        if (WhyNot(typed) is { } refused)
            return refused;
        var part = new Part { CreatedAt = clock.GetUtcNow() };
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        Fill(part, typed);
        if (part.Number.Length == 0)
            part.Number = await NextNumberAsync(cancel);
        db.Parts.Add(part);
        var saved = await db.SaveAsync(cancel, ("ix_parts_number", new PartNumberTaken(part.Number)));
        if (!saved.IsDone)
            return saved.Failure;
        await transaction.CommitAsync(cancel);
        return part.Id;
    }

    public async Task<Result> ChangeAsync(Guid id, PartTyped typed, CancellationToken cancel)
    {
        if (WhyNot(typed) is { } refused)
            return refused;
        var part = await db.Parts.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (part is null)
            return new PartNotFound();
        var number = part.Number;
        db.Entry(part).Property(row => row.Version).OriginalValue = typed.Version;
        Fill(part, typed);
        if (part.Number.Length == 0)
            part.Number = number;
        return await db.SaveAsync(cancel, ("ix_parts_number", new PartNumberTaken(part.Number)));
    }

    public async Task<Result> RetireAsync(Guid id, CancellationToken cancel)
    {
        var part = await db.Parts.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (part is null)
            return new PartNotFound();
        if (part.OnHand > 0)
            return new PartStillOnHand(Words(part), part.OnHand);
        part.RetiredAt ??= clock.GetUtcNow();
        return await db.SaveAsync(cancel);
    }

    public async Task<Result> BringBackAsync(Guid id, CancellationToken cancel)
    {
        var part = await db.Parts.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (part is null)
            return new PartNotFound();
        part.RetiredAt = null;
        return await db.SaveAsync(cancel);
    }

    /// <summary>New ones came in, or some were put back into the drawer.</summary>
    public async Task<Result> BringInAsync(Guid id, MovementKind kind, decimal quantity, decimal? unitCost, string note, CancellationToken cancel)
    {
        if (!StockAmount.IsQuantity(quantity))
            return new QuantityOutOfRange("Quantity", quantity);
        if (unitCost is { } cost && !StockAmount.IsPrice(cost))
            return new AmountOutOfRange("UnitCost", cost);
        var part = await db.Parts.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (part is null)
            return new PartNotFound();
        if (part.RetiredAt is not null)
            return new PartIsRetired(Words(part));
        db.StockMovements.Add(Movement(part.Id, kind, quantity, unitCost ?? part.Cost, note));
        return await db.SaveAsync(cancel);
    }

    /// <summary>What was counted in the drawer becomes what the book says; the difference and the reason stand in the ledger.</summary>
    /// <returns>The difference.</returns>
    public async Task<Result<decimal>> CorrectCountAsync(Guid id, decimal counted, string? reason, CancellationToken cancel)
    {
        if (counted is < 0 or > StockAmount.Largest || decimal.Round(counted, 3) != counted)
            return new CountOutOfRange(counted);
        if (string.IsNullOrWhiteSpace(reason))
            return new CountReasonMissing();
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        // The row is held, so that nobody takes one between the look and the ledger.
        await db.Database.ExecuteSqlAsync($"select 1 from parts where id = {id} for update", cancel);
        var part = await db.Parts.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (part is null)
            return new PartNotFound();
        var difference = counted - part.OnHand;
        if (difference == 0)
            return new CountAgrees(part.OnHand);
        db.StockMovements.Add(Movement(id, MovementKind.CountCorrection, difference, part.Cost, reason));
        var saved = await db.SaveAsync(cancel);
        if (!saved.IsDone)
            return saved.Failure;
        await transaction.CommitAsync(cancel);
        return difference;
    }

    internal static string Words(Part part) => $"{part.Number} {part.Name}";

    /// <summary>Parts that hold the words, or nearly.</summary>
    internal IQueryable<Part> Found(string text)
    {
        if (text.Length == 0)
            return db.Parts.AsNoTracking();
        var inside = "%" + text.Replace(@"\", @"\\", StringComparison.Ordinal).Replace("%", @"\%", StringComparison.Ordinal)
            .Replace("_", @"\_", StringComparison.Ordinal) + "%";
        return db.Parts.FromSql(
            $"select *, xmin from parts where search_text like shop_fold({inside}) or shop_fold({text}) <% search_text").AsNoTracking();
    }

    private StockMovement Movement(Guid partId, MovementKind kind, decimal quantity, decimal unitCost, string note) => new()
    {
        PartId = partId,
        Kind = kind,
        Quantity = quantity,
        UnitCost = unitCost,
        Note = note.Trim(),
        At = clock.GetUtcNow(),
        By = person.RequiredId,
    };

    private async Task<string> NextNumberAsync(CancellationToken cancel)
    {
        var zone = await LabourService.ZoneAsync(db, cancel);
        var format = await db.Shop.Select(shop => shop.PartNumberFormat).SingleAsync(cancel);
        return await NumberGiver.NextFreeAsync(
            db, "part", format, WallClock.DayOf(clock.GetUtcNow(), zone), number => db.Parts.AnyAsync(part => part.Number == number, cancel), cancel);
    }

    private Task<string> CurrencyAsync(CancellationToken cancel) => db.Shop.Select(shop => shop.Currency).SingleAsync(cancel);

    private static Failure? WhyNot(PartTyped typed)
    {
        if (string.IsNullOrWhiteSpace(typed.Name))
            return new PartNameMissing();
        if (!StockAmount.IsPrice(typed.Cost))
            return new AmountOutOfRange("Cost", typed.Cost);
        if (!StockAmount.IsPrice(typed.Price))
            return new AmountOutOfRange("Price", typed.Price);
        return typed.ReorderLevel is < 0 or > StockAmount.Largest ? new QuantityOutOfRange("ReorderLevel", typed.ReorderLevel) : null;
    }

    private static void Fill(Part part, PartTyped typed)
    {
        part.Number = typed.Number.Trim();
        part.Name = typed.Name.Trim();
        part.Fits = typed.Fits.Trim();
        part.Provenance = typed.Provenance;
        part.Cost = typed.Cost;
        part.Price = typed.Price;
        part.Place = typed.Place.Trim();
        part.ReorderLevel = typed.ReorderLevel;
    }
}
