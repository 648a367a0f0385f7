using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Database;

namespace RepairShop.Services.Repairs;

/// <summary>The list of repairs: search, filter, pages by key.</summary>
public sealed class RepairListService(ShopDb db)
{
    /// <summary>So many of the newest are read through first, and so many more when those hold a good part of a page.</summary>
    private static readonly int[] Newest = [1_000, 5_000];
    private const int GoodPart = ListPages.Size / 4;

    /// <summary>Up to so many matches are collected and put in order; of a commoner word the newest are read off in order instead.</summary>
    private const int Few = 300;

    /// <summary>The number of the repair when exactly that was typed or scanned; null otherwise.</summary>
    public async Task<string?> NumberAsync(string? typed, CancellationToken cancel)
    {
        var text = (typed ?? "").Trim();
        if (text.Length is 0 or > 60 || text.Any(char.IsControl))
            return null;
        return await db.Repairs.Where(row => row.Number == text).Select(row => row.Number).FirstOrDefaultAsync(cancel)
            ?? (text.Any(char.IsAsciiLetter)
                ? await db.Repairs.Where(row => EF.Functions.ILike(row.Number, Literally(text), "\\")).Select(row => row.Number).FirstOrDefaultAsync(cancel)
                : null);
    }

    public Task<ListPage<RepairLine>> ListAsync(RepairFilter filter, CancellationToken cancel) =>
        SearchWords.PageAsync(db, filter.Typed, filter.After, (words, after) => PageAsync(filter with { After = after }, words, cancel), cancel);

    private async Task<ListPage<RepairLine>> PageAsync(RepairFilter filter, SearchWords words, CancellationToken cancel)
    {
        var rows = filter.Open ? db.Repairs.Where(row => row.ReturnedAt == null) : db.Repairs.AsQueryable();
        if (ListKey.ReadTime(filter.After) is var (at, id))
            rows = rows.Where(row => EF.Functions.LessThan(ValueTuple.Create(row.BookedAt, row.Id), ValueTuple.Create(at, id)));
        if (!words.AreNone)
            rows = await MatchesAsync(rows, words, wholePage: filter.Stage is null, cancel);
        var lines = Lines(NewestFirst(rows));
        if (filter.Stage is { } stage)
            lines = lines.Where(line => line.Stage == stage);
        var found = await lines.Take(ListPages.Size + 1).ToListAsync(cancel);
        return ListPages.Of(found, line => ListKey.Write(line.BookedAt, line.Id), words.Instead);
    }

    /// <summary>A word that many share fills the page from the newest repairs. A rarer one goes through the trigram index, which
    /// would read a common one's places in the whole book, and is listed by id.</summary>
    /// <param name="rows">Where to look.</param>
    /// <param name="words">What for.</param>
    /// <param name="wholePage">Every match is shown, so that a page of them is enough.</param>
    /// <param name="cancel"></param>
    private async Task<IQueryable<Domain.Repairs.Repair>> MatchesAsync(
        IQueryable<Domain.Repairs.Repair> rows, SearchWords words, bool wholePage, CancellationToken cancel)
    {
        foreach (var reach in wholePage ? Newest : [])
        {
            var newest = await NewestFirst(words.In(NewestFirst(rows).Take(reach)))
                .Select(row => row.Id).Take(ListPages.Size + 1).ToListAsync(cancel);
            if (newest.Count > ListPages.Size)
                return db.Repairs.Where(row => newest.Contains(row.Id));
            if (newest.Count < GoodPart)
                break;
        }

        var ids = await words.In(rows).Select(row => row.Id).Take(Few + 1).ToListAsync(cancel);
        return ids.Count <= Few ? db.Repairs.Where(row => ids.Contains(row.Id)) : words.In(rows);
    }

    private static IOrderedQueryable<Domain.Repairs.Repair> NewestFirst(IQueryable<Domain.Repairs.Repair> rows) =>
        rows.OrderByDescending(row => row.BookedAt).ThenByDescending(row => row.Id);

    private IQueryable<RepairLine> Lines(IQueryable<Domain.Repairs.Repair> rows) =>
        from row in rows
        join stage in db.RepairStages on row.Id equals stage.RepairId
        join camera in db.Cameras on row.CameraId equals camera.Id
        join customer in db.Customers on row.CustomerId equals customer.Id
        select new RepairLine
        {
            Id = row.Id,
            Number = row.Number,
            Customer = customer.Name == "" ? customer.Company : customer.Name,
            Camera = (camera.Maker + " " + camera.Model + " " + camera.Variant).Trim(),
            BodySerial = camera.BodySerial,
            BookedAt = row.BookedAt,
            Stage = stage.Stage,
            WantedBy = row.PromisedFor ?? row.WantedBy,
            Shelf = row.Shelf,
        };

    private static string Literally(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal);
}

/// <param name="Typed">Number, name, serial, maker, model or phone.</param>
/// <param name="Open">Only what has not gone home.</param>
/// <param name="Stage">Only repairs that stand there.</param>
/// <param name="After">Where the page before ended.</param>
public sealed record RepairFilter(string? Typed = null, bool Open = false, Stage? Stage = null, string? After = null);

/// <summary>One line of the list of repairs.</summary>
public sealed record RepairLine
{
    public Guid Id { get; init; }
    public string Number { get; init; } = "";
    public string Customer { get; init; } = "";
    public string Camera { get; init; } = "";
    public string BodySerial { get; init; } = "";
    public DateTimeOffset BookedAt { get; init; }
    public Stage Stage { get; init; }

    /// <summary>Promised for, else wanted by.</summary>
    public DateOnly? WantedBy { get; init; }
    public string Shelf { get; init; } = "";
}
