using Microsoft.EntityFrameworkCore;

namespace RepairShop.Services.Database;

/// <summary>What somebody typed into a search box, as patterns for the folded <c>search_text</c> columns.</summary>
public sealed class SearchWords
{
    private const int LongestQuery = 200;
    private const int MostWords = 8;

    private readonly List<Word> words;

    private SearchWords(List<Word> words) => this.words = words;

    /// <summary>Nothing to look for.</summary>
    public bool AreNone => words.Count == 0;

    /// <summary>What was put right: "petler" → "pelter".</summary>
    public IReadOnlyList<string> Instead => [.. words.SelectMany(word => word.Instead).Distinct()];

    /// <summary>Folds case and accents as the columns do; a number typed in parts is also looked for in one run.</summary>
    public static async Task<SearchWords> ReadAsync(ShopDb db, string? typed, CancellationToken cancel)
    {
        var text = new string([.. (typed ?? "").Where(letter => !char.IsControl(letter)).Take(LongestQuery)]).Trim();
        if (text.Length == 0)
            return new SearchWords([]);
        var folded = await db.Database.SqlQuery<string>($"select shop_fold({text}) as \"Value\"").SingleAsync(cancel);
        if (IsNumberInParts(folded))
            return new SearchWords([new Word(folded, Tail(folded), [])]);
        return new SearchWords([.. folded
            .Split([' ', '\t', '\u00a0', ','], StringSplitOptions.RemoveEmptyEntries)
            .Take(MostWords)
            .Select(word => new Word(word, null, []))]);
    }

    /// <summary>The same words with those that stand nowhere replaced by the likeliest ones that do; null when nothing can be put right.</summary>
    public async Task<SearchWords?> PutRightAsync(ShopDb db, CancellationToken cancel)
    {
        var corrected = new List<Word>();
        foreach (var word in words)
            corrected.Add(word with { Instead = await LikeliestAsync(db, word.Text, cancel) });
        return corrected.Exists(word => word.Instead.Count > 0) ? new SearchWords(corrected) : null;
    }

    /// <summary>Rows whose search text holds every word, or what stands for it.</summary>
    public IQueryable<T> In<T>(IQueryable<T> rows) where T : class
    {
        foreach (var word in words)
        {
            string[] patterns = [.. word.Instead.Append(word.Text).Append(word.Joined).OfType<string>().Select(text => $"%{Escape(text)}%")];
            rows = patterns.Length == 1
                ? rows.Where(row => EF.Functions.Like(EF.Property<string>(row, "SearchText"), patterns[0]))
                : rows.Where(row => patterns.Any(pattern => EF.Functions.Like(EF.Property<string>(row, "SearchText"), pattern)));
        }

        return rows;
    }

    private static async Task<IReadOnlyList<string>> LikeliestAsync(ShopDb db, string word, CancellationToken cancel)
    {
        if (word.Length < 4)
            return [];
        // A low threshold lets a swapped pair of letters through; counting slips afterwards keeps what is unlike out.
        await using var transaction = db.Database.CurrentTransaction is null ? await db.Database.BeginTransactionAsync(cancel) : null;
        await db.Database.ExecuteSqlAsync($"select set_config('pg_trgm.similarity_threshold', '0.2', true)", cancel);
        var near = await db.Database.SqlQuery<string>(
            $"""
            select distinct word as "Value" from (
              select word from search_words
              where word % {word} and length(word) between {word.Length - 2} and {word.Length + 2}
              order by similarity(word, {word}) desc limit 400) likely
            """).ToListAsync(cancel);
        var allowed = word.Length < 8 ? 1 : 2;
        return [.. near
            .Where(candidate => candidate != word)
            .Select(candidate => (candidate, slips: Slips.Between(word, candidate, allowed)))
            .Where(pair => pair.slips <= allowed)
            .OrderBy(pair => pair.slips).ThenBy(pair => pair.candidate, StringComparer.Ordinal)
            .Select(pair => pair.candidate)
            .Take(5)];
    }

    /// <summary>A telephone or serial number with blanks or dashes in it.</summary>
    private static bool IsNumberInParts(string text) =>
        text.Count(char.IsAsciiDigit) >= 5 && !text.All(char.IsAsciiDigit)
        && text.All(letter => char.IsAsciiDigit(letter) || char.IsWhiteSpace(letter) || "+-()/.".Contains(letter, StringComparison.Ordinal));

    /// <summary>Its digits in one run; of a long one the end, as +44 20… and 020… are one telephone.</summary>
    private static string Tail(string text)
    {
        var digits = new string([.. text.Where(char.IsAsciiDigit)]);
        return digits.Length > 9 ? digits[^8..] : digits;
    }

    private static string Escape(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal);

    /// <param name="Text">As typed, folded.</param>
    /// <param name="Joined">A number typed in parts, in one run.</param>
    /// <param name="Instead">What may have been meant.</param>
    private sealed record Word(string Text, string? Joined, IReadOnlyList<string> Instead);
}
