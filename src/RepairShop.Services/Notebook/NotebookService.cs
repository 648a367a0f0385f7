using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Notebook;

/// <summary>The models of the notebook: listed, opened, started, renamed, removed and brought back.</summary>
public sealed class NotebookService(ShopDb db, GuideService guides, TimeProvider clock)
{
    public async Task<ListPage<ModelLine>> ListAsync(string? after, CancellationToken cancel)
    {
        var rows = db.ModelPages.Where(row => row.RemovedAt == null);
        if (ListKey.Read(after) is var (name, id) && name.Split('\t') is [var maker, var model])
            rows = rows.Where(row => EF.Functions.GreaterThan(ValueTuple.Create(row.Maker, row.Model, row.Id), ValueTuple.Create(maker, model, id)));
        var lines = await rows.OrderBy(row => row.Maker).ThenBy(row => row.Model).ThenBy(row => row.Id).Take(ListPages.Size + 1)
            .Select(row => new ModelLine(
                row.Id, row.Maker, row.Model,
                db.ModelVariants.Count(variant => variant.PageId == row.Id && variant.RemovedAt == null),
                db.ModelEntries.Count(entry => entry.PageId == row.Id && entry.RemovedAt == null),
                db.GuideVersions.Where(guide => guide.PageId == row.Id).Max(guide => (int?)guide.Number)))
            .ToListAsync(cancel);
        return ListPages.Of(lines, line => ListKey.Write($"{line.Maker}\t{line.Model}", line.Id), []);
    }

    public async Task<Result<ModelPageView>> GetAsync(Guid id, CancellationToken cancel)
    {
        if (await db.ModelPages.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } page)
            return new ModelPageNotFound();
        var workshop = await WorkshopCounts.OfAsync(db, page.Maker, page.Model, cancel);
        var variants = await db.ModelVariants.AsNoTracking().Where(row => row.PageId == id && row.RemovedAt == null)
            .OrderBy(row => row.Position).ThenBy(row => row.Id).ToListAsync(cancel);
        var entries = await db.ModelEntries.AsNoTracking().Where(row => row.PageId == id && row.RemovedAt == null)
            .OrderBy(row => row.Position).ThenBy(row => row.Id).ToListAsync(cancel);
        var guide = (await guides.NewestAsync(id, cancel)).Value;
        return new ModelPageView
        {
            Id = id,
            Name = CameraRules.NameOf(page.Maker, page.Model, ""),
            Head = TypedOf(page),
            IsRemoved = page.RemovedAt is not null,
            Variants = [.. variants.Select(row => new VariantView(row.Id, VariantService.TypedOf(row)))],
            Entries = [.. entries.Select(row => EntryOf(row, workshop)).OrderBy(entry => EntryWords.Order.ToList().IndexOf(entry.Typed.Kind))],
            Guide = guide,
            Photos = await db.ModelPhotos.Where(row => row.PageId == id && row.RemovedAt == null).OrderBy(row => row.Position).ThenBy(row => row.Id)
                .Select(row => new ModelPhotoView(row.Id, row.Caption, row.Width, row.Height)).ToListAsync(cancel),
            Workshop = workshop,
            Cautions = [.. CautionsOf(entries, [page.Notes, .. variants.Select(row => row.Note), guide is null ? "" : GuideRules.TextOf(guide.Steps)])],
        };
    }

    /// <param name="once">Made when the form was opened, so that the same form sent twice starts one page.</param>
    public async Task<Result<Guid>> StartAsync(ModelTyped typed, Guid once, CancellationToken cancel)
    {
        var page = new ModelPage { Id = once, CreatedAt = clock.GetUtcNow() };
        if (Fill(page, typed) is { } refused)
            return refused;
        if (await db.ModelPages.AnyAsync(row => row.Id == once && row.Model == page.Model && row.Maker == page.Maker, cancel))
            return once;
        db.ModelPages.Add(page);
        var saved = await SaveAsync(db, page, cancel);
        return saved.IsDone ? page.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid id, ModelTyped typed, CancellationToken cancel)
    {
        if (await db.ModelPages.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } page)
            return new ModelPageNotFound();
        db.Entry(page).Property(row => row.Version).OriginalValue = typed.Version;
        if (Fill(page, typed) is { } refused)
            return refused;
        return await SaveAsync(db, page, cancel);
    }

    public Task<Result> RemoveAsync(Guid id, CancellationToken cancel) => SetRemovedAsync(id, clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid id, CancellationToken cancel) => SetRemovedAsync(id, null, cancel);

    /// <summary>The page of a repair's model; null when there is no such repair or its camera has no model written down.</summary>
    public async Task<NotebookLink?> OfRepairAsync(Guid repairId, CancellationToken cancel)
    {
        var camera = await (
            from repair in db.Repairs
            join one in db.Cameras on repair.CameraId equals one.Id
            where repair.Id == repairId
            select new { one.Maker, one.Model }).SingleOrDefaultAsync(cancel);
        if (camera is null || camera.Model.Length == 0)
            return null;
        if (await PageIdAsync(db, camera.Maker, camera.Model, cancel) is not { } id)
            return new NotebookLink(null, camera.Maker, camera.Model, null, 0);
        var newest = await db.GuideVersions.Where(row => row.PageId == id).MaxAsync(row => (int?)row.Number, cancel);
        var cautions = await db.ModelEntries.CountAsync(row => row.PageId == id && row.Kind == EntryKind.Caution && row.RemovedAt == null, cancel);
        return new NotebookLink(id, camera.Maker, camera.Model, newest, cautions);
    }

    internal static async Task<Guid?> PageIdAsync(ShopDb db, string maker, string model, CancellationToken cancel)
    {
        var (lowMaker, lowModel) = (maker.ToLowerInvariant(), model.ToLowerInvariant());
#pragma warning disable CA1304, CA1311, CA1862 // lower() of the database, for which there is an index
        return await db.ModelPages.Where(row => row.RemovedAt == null && row.Maker.ToLower() == lowMaker && row.Model.ToLower() == lowModel)
            .Select(row => (Guid?)row.Id).SingleOrDefaultAsync(cancel);
#pragma warning restore CA1304, CA1311, CA1862
    }

    private static Failure? Fill(ModelPage page, ModelTyped typed)
    {
        var dial = CameraRules.Dial(typed.MarkedSpeeds);
        if (!dial.IsDone)
            return dial.Failure;
        (page.Maker, page.Model, page.Notes) = (TypedText.OneLine(typed.Maker), TypedText.OneLine(typed.Model), TypedText.Lines(typed.Notes));
        if (!page.MarkedSpeeds.SequenceEqual(dial.Value))
            page.MarkedSpeeds = dial.Value;
        return NotebookRules.WhyNot(page);
    }

    private static ModelTyped TypedOf(ModelPage page) =>
        new(page.Maker, page.Model, string.Join(' ', page.MarkedSpeeds), page.Notes, page.Version);

    private static EntryView EntryOf(ModelEntry row, WorkshopFigures workshop) => new(
        row.Id, EntryService.TypedOf(row),
        row.Kind != EntryKind.Fault ? null : workshop.Faults.FirstOrDefault(fault => Same(fault.Component, row.Title))?.Repairs ?? 0,
        row.Kind != EntryKind.Gauge ? null : workshop.Gauges.FirstOrDefault(gauge => Same(gauge.Name, row.Title) && gauge.Unit == row.Unit));

    private static bool Same(string one, string other) => string.Equals(one.Trim(), other.Trim(), StringComparison.OrdinalIgnoreCase);

    private static IEnumerable<Caution> CautionsOf(List<ModelEntry> entries, IEnumerable<string> texts) =>
        entries.Select(row => row.Caution).OfType<Caution>()
            .Concat(CautionWords.In(texts.Concat(entries.SelectMany(row => new[] { row.Title, row.Text }))))
            .Distinct().Order();

    private async Task<Result> SetRemovedAsync(Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        if (await db.ModelPages.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } page)
            return new ModelPageNotFound();
        page.RemovedAt = at is null ? null : page.RemovedAt ?? at;
        return await SaveAsync(db, page, cancel);
    }

    internal static Task<Result> SaveAsync(ShopDb db, ModelPage page, CancellationToken cancel) =>
        db.SaveAsync(cancel, (ModelPageConfiguration.OneName, new ModelHasPage(CameraRules.NameOf(page.Maker, page.Model, ""))));
}
