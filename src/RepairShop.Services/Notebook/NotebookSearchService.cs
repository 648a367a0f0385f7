using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Notebook;

/// <summary>A model in which every word that was looked for stands somewhere.</summary>
public sealed record ModelFound(Guid PageId, string Name, IReadOnlyList<WordFound> Hits);

/// <summary>One place where words stand.</summary>
/// <param name="Kind">page, variant, guide, photo, or the kind of entry.</param>
/// <param name="Pieces">The text around the words, piece by piece.</param>
public sealed record WordFound(string Kind, Guid? EntryId, string Title, IReadOnlyList<TextPiece> Pieces);

/// <summary>A piece of text, and whether it is a word that was looked for.</summary>
public sealed record TextPiece(string Text, bool IsWord);

/// <summary>Looks through everything written in the notebook with PostgreSQL's full text search: word forms count as the word.</summary>
public sealed class NotebookSearchService(ShopDb db)
{
    private const int MostWords = 8;
    private const int MostLetters = 200;
    private const int MostHits = 400;
    private const int HitsShown = 4;

    // From the private use area, so that no text can hold them.
    private const char Start = '\uE000';
    private const char Stop = '\uE001';

    /// <summary>Models in which all the words stand, the best first; none for an empty question.</summary>
    public async Task<IReadOnlyList<ModelFound>> FindAsync(string? typed, CancellationToken cancel)
    {
        var queries = await QueriesAsync(typed, cancel);
        if (queries.Length == 0)
            return [];
        var hits = await HitsAsync(queries, cancel);
        return [.. hits.GroupBy(hit => hit.PageId)
            .Where(page => page.SelectMany(hit => hit.Words).Distinct().Count() == queries.Length)
            .OrderByDescending(page => page.Sum(hit => hit.Rank))
            .Select(page => new ModelFound(page.Key, CameraRules.NameOf(page.First().Maker, page.First().Model, ""),
                [.. page.OrderByDescending(hit => hit.Words.Length).ThenByDescending(hit => hit.Rank).Take(HitsShown).Select(ToFound)]))];
    }

    /// <summary>Each word as a query: its forms, and from three letters on whatever begins with it. Words that say nothing drop out.</summary>
    private async Task<string[]> QueriesAsync(string? typed, CancellationToken cancel)
    {
        var text = TypedText.Cut(TypedText.OneLine(typed), MostLetters);
        string[] words = [.. text.Split([' ', '\u00a0', ',', ';'], StringSplitOptions.RemoveEmptyEntries).Distinct().Take(MostWords)];
        if (words.Length == 0)
            return [];
        return await db.Database.SqlQuery<string>(
            $$"""
            select (forms || case when length(word) < 3 then ''::tsquery
              else ('''' || replace(replace(word, '\', '\\'), '''', '''''') || ''':*')::tsquery end)::text as "Value"
            from (select shop_fold(one) as word, plainto_tsquery('english', shop_fold(one)) as forms from unnest({{words}}) as asked(one)) as folded
            where numnode(forms) > 0
            """).ToArrayAsync(cancel);
    }

    private async Task<List<Hit>> HitsAsync(string[] queries, CancellationToken cancel)
    {
        var any = string.Join(" | ", queries.Select(query => $"({query})"));
        var look = $"StartSel={Start}, StopSel={Stop}, MaxWords=24, MinWords=8, MaxFragments=1";
        return await db.Database.SqlQuery<Hit>(
            $"""
            select found.page_id, page.maker, page.model, found.kind, found.entry_id, found.title,
              ts_headline('english', found.body, {any}::tsquery, {look}) as excerpt,
              ts_rank(found.words, {any}::tsquery)::float8 as rank,
              array(select number::int from unnest({queries}) with ordinality as asked(query, number) where found.words @@ query::tsquery) as words
            from (
              select id as page_id, 'page' as kind, null::uuid as entry_id, maker || ' ' || model as title, notes as body, words
                from model_pages where words @@ {any}::tsquery
              union all select page_id, lower(kind), id, title, text, words
                from model_entries where words @@ {any}::tsquery and removed_at is null
              union all select page_id, 'variant', id, name, concat_ws(' ', replace(traits, e'\n', ', '), note), words
                from model_variants where words @@ {any}::tsquery and removed_at is null
              union all select page_id, 'photo', id, caption, '', words
                from model_photos where words @@ {any}::tsquery and removed_at is null
              union all select page_id, 'guide', null, 'Guide', replace(text, e'\n', ' · '), words
                from guide_versions guide where words @@ {any}::tsquery
                and number = (select max(number) from guide_versions other where other.page_id = guide.page_id)
            ) found
            join model_pages page on page.id = found.page_id and page.removed_at is null
            order by rank desc, found.page_id limit {MostHits}
            """).ToListAsync(cancel);
    }

    private static WordFound ToFound(Hit hit) => new(hit.Kind, hit.EntryId, hit.Title, [.. Pieces(hit.Excerpt)]);

    private static IEnumerable<TextPiece> Pieces(string excerpt)
    {
        foreach (var part in excerpt.Split(Start))
        {
            var at = part.IndexOf(Stop, StringComparison.Ordinal);
            if (at >= 0)
                yield return new TextPiece(part[..at], true);
            if (part[(at + 1)..] is { Length: > 0 } rest)
                yield return new TextPiece(rest, false);
        }
    }

    private sealed record Hit(
        Guid PageId, string Maker, string Model, string Kind, Guid? EntryId, string Title, string Excerpt, double Rank, int[] Words);
}
