using RepairShop.Domain.Notebook;

namespace RepairShop.Domain.Tests.Notebook;

/// <summary>The plainest way to the same answers, sharing nothing with the product but its records.</summary>
internal static class BruteForce
{
    /// <summary>H(variant) + H(answer) − H(variant, answer) over the table of all pairs.</summary>
    public static double Bits(VariantFinderTests.Book book, string trait)
    {
        var left = Left(book);
        var values = book.Variants.SelectMany(one => one.Traits).Where(one => one.Name == trait).Select(one => one.Value).Distinct().ToList();
        var table = new Dictionary<(string Variant, string Value), double>();
        foreach (var variant in left)
        {
            var shows = variant.Traits.Where(one => one.Name == trait).Select(one => one.Value).Distinct().ToList();
            if (shows.Count == 0)
                shows = values;
            foreach (var value in shows)
                table[(variant.Variant, value)] = 1.0 / left.Count / shows.Count;
        }

        var variants = table.GroupBy(cell => cell.Key.Variant).Select(row => row.Sum(cell => cell.Value));
        var answers = table.GroupBy(cell => cell.Key.Value).Select(column => column.Sum(cell => cell.Value));
        return Entropy(variants) + Entropy(answers) - Entropy(table.Values);
    }

    public static IEnumerable<string> OpenTraits(VariantFinderTests.Book book) =>
        book.Variants.SelectMany(one => one.Traits).Select(one => one.Name).Distinct()
            .Except(book.Answers.Select(answer => answer.Name)).Order(StringComparer.Ordinal);

    /// <summary>By selection: again and again the first of those nothing is better than.</summary>
    public static List<string> Ranked(VariantFinderTests.Book book)
    {
        var waiting = book.Variants.ToList();
        var ranked = new List<string>();
        while (waiting.Count > 0)
        {
            var best = waiting.First(one => waiting.All(other => !Better(book, other, one)));
            waiting.Remove(best);
            ranked.Add(best.Variant);
        }

        return ranked;
    }

    private static bool Better(VariantFinderTests.Book book, TraitsOf one, TraitsOf other) =>
        Against(book, one) < Against(book, other) || (Against(book, one) == Against(book, other) && For(book, one) > For(book, other));

    private static List<TraitsOf> Left(VariantFinderTests.Book book) =>
        [.. book.Variants.Where(one => book.Variants.All(other => Against(book, one) <= Against(book, other)))];

    private static int Against(VariantFinderTests.Book book, TraitsOf variant) => Counting(book).Count(answer =>
        variant.Traits.Any(one => one.Name == answer.Name) && variant.Traits.All(one => one.Name != answer.Name || one.Value != answer.Value));

    private static int For(VariantFinderTests.Book book, TraitsOf variant) =>
        Counting(book).Count(answer => variant.Traits.Any(one => one.Name == answer.Name && one.Value == answer.Value));

    private static IEnumerable<Trait> Counting(VariantFinderTests.Book book) =>
        book.Answers.Reverse().DistinctBy(answer => answer.Name);

    private static double Entropy(IEnumerable<double> chances) => -chances.Where(chance => chance > 0).Sum(chance => chance * Math.Log2(chance));
}
