namespace RepairShop.Domain.Notebook;

/// <summary>How well a variant fits what was seen.</summary>
/// <param name="Variant">Its name.</param>
/// <param name="Agrees">Answers that are one of the trait's values here.</param>
/// <param name="Contradicts">Answers that are not, with what this variant has instead.</param>
/// <param name="Unknown">Answers about traits of which nothing is written for this variant.</param>
public sealed record VariantFit(
    string Variant, IReadOnlyList<Trait> Agrees, IReadOnlyList<Contradiction> Contradicts, IReadOnlyList<Trait> Unknown);

/// <summary>A trait that speaks against a variant.</summary>
public sealed record Contradiction(Trait Seen, IReadOnlyList<string> Has);

/// <summary>A trait not asked yet.</summary>
/// <param name="Trait">Its name, spelled as first written.</param>
/// <param name="Values">Every value it has in any variant, in the order written.</param>
/// <param name="Bits">How much the answer tells about which variant it is, in bits, 0 or more; 1 bit halves the variants that still fit.</param>
public sealed record TraitQuestion(string Trait, IReadOnlyList<string> Values, double Bits);

/// <summary>Tells the variants of a model apart by a few questions.</summary>
public static class VariantFinder
{
    /// <summary>The variants, those that fit best first: fewest contradictions, then most agreements, then as written.</summary>
    /// <param name="variants">In the notebook's order.</param>
    /// <param name="answers">What was seen; of two answers about one trait the last counts.</param>
    public static IReadOnlyList<VariantFit> Rank(IReadOnlyList<TraitsOf> variants, IReadOnlyList<Trait> answers)
    {
        var seen = Last(answers);
        return [.. variants.Select(variant => FitOf(variant, seen)).OrderBy(fit => fit.Contradicts.Count).ThenByDescending(fit => fit.Agrees.Count)];
    }

    /// <summary>
    /// The traits not answered yet, the most telling first: by the mutual information between the answer and the variant,
    /// I = Σ p(variant, answer) · log2(p(variant, answer) / (p(variant) · p(answer))), Shannon 1948 (A Mathematical Theory of
    /// Communication). The variants with the fewest contradictions so far are taken as equally likely; a variant with two values
    /// of a trait shows either as often; one of which nothing is known shows any value as often, so that its answer tells nothing.
    /// </summary>
    public static IReadOnlyList<TraitQuestion> NextQuestions(IReadOnlyList<TraitsOf> variants, IReadOnlyList<Trait> answers)
    {
        var seen = Last(answers);
        var left = StillFit(variants, seen);
        var open = variants.SelectMany(variant => variant.Traits).Select(trait => trait.Name).Distinct(StringComparer.OrdinalIgnoreCase)
            .Where(name => !seen.Any(answer => string.Equals(answer.Name, name, StringComparison.OrdinalIgnoreCase)));
        return [.. open.Select(name => QuestionOf(name, variants, left)).OrderByDescending(question => question.Bits)];
    }

    /// <summary>Those with the fewest contradictions: usually none, else the least wrong.</summary>
    public static IReadOnlyList<TraitsOf> StillFit(IReadOnlyList<TraitsOf> variants, IReadOnlyList<Trait> answers)
    {
        if (variants.Count == 0)
            return [];
        var seen = Last(answers);
        var counted = variants.Select(variant => (variant, against: FitOf(variant, seen).Contradicts.Count)).ToList();
        var fewest = counted.Min(pair => pair.against);
        return [.. counted.Where(pair => pair.against == fewest).Select(pair => pair.variant)];
    }

    private static TraitQuestion QuestionOf(string name, IReadOnlyList<TraitsOf> variants, IReadOnlyList<TraitsOf> left)
    {
        var values = variants.SelectMany(variant => variant.ValuesOf(name)).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        var chances = left.Select(variant => Chances(variant.ValuesOf(name), values)).ToList();
        var bits = 0.0;
        for (var value = 0; value < values.Count; value++)
        {
            var answer = chances.Sum(row => row[value]) / left.Count;
            foreach (var given in chances.Select(row => row[value]).Where(given => given > 0))
                bits += given / left.Count * Math.Log2(given / answer);
        }

        // Rounding may leave a hair on either side of nothing.
        return new TraitQuestion(name, values, bits < 1e-12 ? 0 : bits);
    }

    private static double[] Chances(IReadOnlyList<string> has, List<string> values) =>
    [
        .. values.Select(value => has.Count == 0 ? 1.0 / values.Count : has.Contains(value, StringComparer.OrdinalIgnoreCase) ? 1.0 / has.Count : 0),
    ];

    private static VariantFit FitOf(TraitsOf variant, IReadOnlyList<Trait> seen)
    {
        List<Trait> agrees = [], unknown = [];
        List<Contradiction> against = [];
        foreach (var answer in seen)
        {
            var has = variant.ValuesOf(answer.Name);
            if (has.Count == 0)
                unknown.Add(answer);
            else if (has.Contains(answer.Value, StringComparer.OrdinalIgnoreCase))
                agrees.Add(answer);
            else
                against.Add(new Contradiction(answer, has));
        }

        return new VariantFit(variant.Variant, agrees, against, unknown);
    }

    private static List<Trait> Last(IReadOnlyList<Trait> answers) =>
        [.. answers.Where((answer, index) => !answers.Skip(index + 1).Any(later => later.IsOf(answer)))];
}
