using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Database;

/// <summary>What somebody typed into a search box, as patterns for the folded <c>search_text</c> columns.</summary>
public sealed class SearchWords
{
    private const int LongestQuery = 200;
    private const int MostWords = 8;

    /// <summary>A number of more digits is a telephone number, and its last eight are enough: +44 20… and 020… are one.</summary>
    private const int LongestSerial = 9;
    private const int TelephoneEnd = 8;

    private readonly List<Word> words;

    private SearchWords(List<Word> words) => this.words = words;

    /// <summary>Nothing to look for.</summary>
    public bool AreNone => words.Count == 0;

    /// <summary>What was put right: "petler" → "pelter".</summary>
    public IReadOnlyList<string> Instead => [.. words.SelectMany(word => word.Instead).Distinct()];

    /// <summary>Folds case and accents as the columns do; a number typed in parts is also looked for in one run.</summary>
    public static async Task<SearchWords> ReadAsync(ShopDb db, string? typed, CancellationToken cancel)
    {
        var text = TypedText.Cut(TypedText.OneLine(typed), LongestQuery);
        if (text.Length == 0)
            return new SearchWords([]);
        var folded = await db.Database.SqlQuery<string>($"select shop_fold({text}) as \"Value\"").SingleAsync(cancel);
        if (IsNumberInParts(folded))
            return new SearchWords([NumberInParts(folded)]);
        return new SearchWords([.. folded
            .Split([' ', '\t', '\u00a0', ','], StringSplitOptions.RemoveEmptyEntries)
            .Take(MostWords)
            .Select(word => new Word(word))]);
    }

    /// <summary>A page of what was typed, or of what was meant where what was typed stands nowhere.</summary>
    /// <param name="db"></param>
    /// <param name="typed"></param>
    /// <param name="after">Where the page before ended; null for the first.</param>
    /// <param name="page">Reads a page for some words from some place on.</param>
    /// <param name="cancel"></param>
    public static async Task<ListPage<T>> PageAsync<T>(
        ShopDb db, string? typed, string? after, Func<SearchWords, string?, Task<ListPage<T>>> page, CancellationToken cancel)
    {
        var words = await ReadAsync(db, typed, cancel);
        var found = await page(words, after);
        if (found.Lines.Count > 0 || words.AreNone)
            return found;
        // A later page is empty behind the end of what was typed, or because the first was put right and this one has to be too.
        if (after is not null && (await page(words, null)).Lines.Count > 0)
            return found;
        return await words.PutRightAsync(db, cancel) is { } right ? await page(right, after) : found;
    }

    /// <summary>The same words with those that stand nowhere replaced by the likeliest ones that do; null when nothing can be put right.</summary>
    public async Task<SearchWords?> PutRightAsync(ShopDb db, CancellationToken cancel)
    {
        if (words is [{ AsTyped: { } typed }])
            return new SearchWords([new Word(typed)]);
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
            // Of several words any may have been right; a single one has been looked for already.
            var asTyped = words.Count == 1 && word.Instead.Count > 0 ? null : word.Text;
            string[] patterns = [.. word.Instead.Append(asTyped).Append(word.Joined).OfType<string>().Select(text => $"%{Escape(text)}%")];
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
        // What only looks alike is kept out by counting the slips.
        var near = await db.Database.SqlQuery<string>($"select word as \"Value\" from near_words({word})").ToListAsync(cancel);
        var allowed = word.Length < 8 ? 1 : 2;
        return [.. near
            .Where(candidate => candidate != word)
            .GroupBy(candidate => Slips.Between(word, candidate, allowed))
            .Where(alike => alike.Key <= allowed)
            .OrderBy(alike => alike.Key)
            .Take(1)
            .SelectMany(alike => alike.Order(StringComparer.Ordinal))
            .Take(5)];
    }

    /// <summary>A telephone or serial number with blanks or dashes in it.</summary>
    private static bool IsNumberInParts(string text) =>
        text.Count(char.IsAsciiDigit) >= 5 && !text.All(char.IsAsciiDigit)
        && text.All(letter => char.IsAsciiDigit(letter) || char.IsWhiteSpace(letter) || "+-()/.".Contains(letter, StringComparison.Ordinal));

    /// <summary>A serial or repair number is looked for both ways. Of a telephone number only its end is, as the digits of any number
    /// lie in one run beside it; how it was typed is asked when that stands nowhere, since its common pieces are slow to find.</summary>
    private static Word NumberInParts(string text)
    {
        var digits = new string([.. text.Where(char.IsAsciiDigit)]);
        return digits.Length > LongestSerial ? new Word(digits[^TelephoneEnd..], AsTyped: text) : new Word(text, digits);
    }

    private static string Escape(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal);

    /// <param name="Text">What to look for, folded.</param>
    /// <param name="Joined">A number typed in parts, in one run.</param>
    /// <param name="AsTyped">What to look for when the end of a telephone number stands nowhere.</param>
    private sealed record Word(string Text, string? Joined = null, string? AsTyped = null)
    {
        /// <summary>What may have been meant.</summary>
        public IReadOnlyList<string> Instead { get; init; } = [];
    }
}
