using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Notebook;

/// <summary>Faults, gauges, tools, torques, lubricants and cautions of a model: added, changed, removed and brought back.</summary>
public sealed class EntryService(ShopDb db, TimeProvider clock)
{
    public async Task<Result<EntryTyped>> GetAsync(Guid pageId, Guid id, CancellationToken cancel) =>
        await db.ModelEntries.AsNoTracking().SingleOrDefaultAsync(row => row.PageId == pageId && row.Id == id && row.RemovedAt == null, cancel) is { } row
            ? TypedOf(row)
            : new ModelEntryNotFound();

    /// <param name="once">Made when the form was opened, so that the same form sent twice is kept once.</param>
    public async Task<Result<Guid>> AddAsync(Guid pageId, EntryTyped typed, Guid once, CancellationToken cancel)
    {
        if (!await db.ModelPages.AnyAsync(row => row.Id == pageId, cancel))
            return new ModelPageNotFound();
        var last = await db.ModelEntries.Where(row => row.PageId == pageId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        var entry = new ModelEntry { Id = once, PageId = pageId, Position = last + 1 };
        Fill(entry, typed);
        if (NotebookRules.WhyNot(entry) is { } refused)
            return refused;
        if (await db.ModelEntries.AsNoTracking().SingleOrDefaultAsync(row => row.Id == once, cancel) is { } earlier)
        {
            if (earlier.PageId == pageId && earlier.RemovedAt is null && TypedOf(earlier) with { Version = 0 } == TypedOf(entry) with { Version = 0 })
                return once;
            entry.Id = Guid.CreateVersion7(); // the back button brought the form back: something else was written in it, or the first was removed meanwhile
        }

        db.ModelEntries.Add(entry);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? entry.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid pageId, Guid id, EntryTyped typed, CancellationToken cancel)
    {
        if (await db.ModelEntries.SingleOrDefaultAsync(row => row.PageId == pageId && row.Id == id && row.RemovedAt == null, cancel) is not { } entry)
            return new ModelEntryNotFound();
        db.Entry(entry).Property(row => row.Version).OriginalValue = typed.Version;
        Fill(entry, typed);
        return NotebookRules.WhyNot(entry) is { } refused ? refused : await db.SaveAsync(cancel);
    }

    public Task<Result> RemoveAsync(Guid pageId, Guid id, CancellationToken cancel) => SetRemovedAsync(pageId, id, clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid pageId, Guid id, CancellationToken cancel) => SetRemovedAsync(pageId, id, null, cancel);

    internal static EntryTyped TypedOf(ModelEntry row) =>
        new(row.Kind, row.Title, row.Text, row.Link, row.Caution, row.Unit, row.Low, row.High, row.Version);

    private static void Fill(ModelEntry entry, EntryTyped typed) => NotebookFileReader.Fill(entry, new FileEntry
    {
        Kind = typed.Kind,
        Title = typed.Title,
        Text = typed.Text,
        Link = typed.Link,
        Caution = typed.Caution,
        Unit = typed.Unit,
        Low = typed.Low,
        High = typed.High,
    });

    private async Task<Result> SetRemovedAsync(Guid pageId, Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        if (await db.ModelEntries.SingleOrDefaultAsync(row => row.PageId == pageId && row.Id == id, cancel) is not { } entry)
            return new ModelEntryNotFound();
        entry.RemovedAt = at is null ? null : entry.RemovedAt ?? at;
        return await db.SaveAsync(cancel);
    }
}
