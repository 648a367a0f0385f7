using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Notebook;

/// <summary>Variants of a model and their traits; which of them a camera in hand is.</summary>
public sealed class VariantService(ShopDb db, TimeProvider clock)
{
    public async Task<IReadOnlyList<TraitsOf>> TraitsAsync(Guid pageId, CancellationToken cancel)
    {
        var rows = await Shown(pageId).AsNoTracking().OrderBy(row => row.Position).ThenBy(row => row.Id).ToListAsync(cancel);
        return [.. rows.Select(TraitsOf.Read)];
    }

    public async Task<Result<VariantTyped>> GetAsync(Guid pageId, Guid id, CancellationToken cancel) =>
        await Shown(pageId).AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is { } row ? TypedOf(row) : new ModelVariantNotFound();

    /// <param name="once">Made when the form was opened, so that the same form sent twice is kept once.</param>
    public async Task<Result<Guid>> AddAsync(Guid pageId, VariantTyped typed, Guid once, CancellationToken cancel)
    {
        if (!await db.ModelPages.AnyAsync(row => row.Id == pageId, cancel))
            return new ModelPageNotFound();
        var variant = new ModelVariant { Id = once, PageId = pageId };
        if (Fill(variant, typed) is { } refused)
            return refused;
        if (await db.ModelVariants.AsNoTracking().SingleOrDefaultAsync(row => row.Id == once, cancel) is { } earlier)
        {
            if (earlier.PageId == pageId && earlier.RemovedAt is null && TypedOf(earlier) with { Version = 0 } == TypedOf(variant) with { Version = 0 })
                return once;
            variant.Id = Guid.CreateVersion7();
        }

        variant.Position = 1 + (await db.ModelVariants.Where(row => row.PageId == pageId).MaxAsync(row => (int?)row.Position, cancel) ?? 0);
        db.ModelVariants.Add(variant);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? variant.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid pageId, Guid id, VariantTyped typed, CancellationToken cancel)
    {
        if (await Shown(pageId).SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } variant)
            return new ModelVariantNotFound();
        db.Entry(variant).Property(row => row.Version).OriginalValue = typed.Version;
        return Fill(variant, typed) is { } refused ? refused : await db.SaveAsync(cancel);
    }

    public Task<Result> RemoveAsync(Guid pageId, Guid id, CancellationToken cancel) => SetRemovedAsync(pageId, id, clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid pageId, Guid id, CancellationToken cancel) => SetRemovedAsync(pageId, id, null, cancel);

    internal static VariantTyped TypedOf(ModelVariant row) => new(row.Name, row.Traits, row.Note, row.Version);

    internal static Failure? Fill(ModelVariant variant, VariantTyped typed)
    {
        (variant.Name, variant.Note) = (TypedText.OneLine(typed.Name), TypedText.Lines(typed.Note));
        if (variant.Name.Length == 0)
            return new VariantUnnamed();
        var traits = NotebookRules.Traits(typed.Traits);
        variant.Traits = traits.Value ?? variant.Traits;
        return traits.Failure;
    }

    private IQueryable<ModelVariant> Shown(Guid pageId) => db.ModelVariants.Where(row => row.PageId == pageId && row.RemovedAt == null);

    private async Task<Result> SetRemovedAsync(Guid pageId, Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        if (await db.ModelVariants.SingleOrDefaultAsync(row => row.PageId == pageId && row.Id == id, cancel) is not { } variant)
            return new ModelVariantNotFound();
        variant.RemovedAt = at is null ? null : variant.RemovedAt ?? at;
        return await db.SaveAsync(cancel);
    }
}
