using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Notebook;
using Xunit;

namespace RepairShop.Domain.Tests.Notebook;

/// <summary>The questions are held against a second way to the same answer: every (variant, answer) pair written down as a table
/// of chances, and entropy taken from its definition (Shannon 1948), H = −Σ p · log2 p.</summary>
public sealed class VariantFinderTests
{
    private static readonly TraitsOf[] Pelter =
    [
        Variant("I", "rewind: plain knob", "lens: 50 mm f/3.5", "top speed: 1/300"),
        Variant("II", "rewind: plain knob", "lens: 48 mm f/2.2", "top speed: 1/500"),
        Variant("IIb", "rewind: crank", "lens: 48 mm f/2.2", "top speed: 1/500", "colour: chrome", "colour: black"),
        Variant("IIc", "rewind: crank", "lens: 48 mm f/2.2", "top speed: 1/500", "colour: black"),
    ];

    [Fact]
    public void Fewest_contradictions_come_first_and_each_is_named_with_what_the_variant_has_instead()
    {
        var ranked = VariantFinder.Rank(Pelter, Said("rewind: crank", "colour: chrome"));
        Assert.Equal(["IIb", "IIc", "I", "II"], ranked.Select(fit => fit.Variant));
        Assert.Empty(ranked[0].Contradicts);
        Assert.Equal("colour: chrome", Assert.Single(ranked[1].Contradicts).Seen.ToString());
        var against = Assert.Single(ranked[2].Contradicts);
        Assert.Equal(("rewind: crank", "plain knob"), (against.Seen.ToString(), Assert.Single(against.Has)));
        Assert.Equal("colour: chrome", Assert.Single(ranked[2].Unknown).ToString());
    }

    [Fact]
    public void The_question_that_halves_the_variants_comes_before_one_that_names_one_of_four()
    {
        var next = VariantFinder.NextQuestions(Pelter, []);
        Assert.Equal("rewind", next[0].Trait);
        Assert.Equal(1, next[0].Bits, 1e-12); // two of four
        Assert.Equal(0.811278, next.Single(question => question.Trait == "lens").Bits, 1e-6); // one of four: H(1/4), worked by hand
        Assert.Equal(["plain knob", "crank"], next[0].Values);
    }

    [Fact]
    public void Once_one_variant_is_left_no_question_tells_anything_more() =>
        Assert.All(VariantFinder.NextQuestions(Pelter, Said("top speed: 1/300")), question => Assert.Equal(0, question.Bits));

    [Fact]
    public void Words_are_compared_without_regard_to_case_and_of_two_answers_the_last_counts()
    {
        var ranked = VariantFinder.Rank(Pelter, Said("REWIND: plain knob", "Rewind: CRANK"));
        Assert.Equal(["IIb", "IIc", "I", "II"], ranked.Select(fit => fit.Variant));
        Assert.DoesNotContain(VariantFinder.NextQuestions(Pelter, Said("REWIND: crank")), question => question.Trait == "rewind");
    }

    [Fact]
    public void Without_variants_there_is_nothing_to_rank_or_ask()
    {
        Assert.Empty(VariantFinder.Rank([], Said("rewind: crank")));
        Assert.Empty(VariantFinder.NextQuestions([], []));
    }

    [Fact]
    public void Bits_agree_with_the_joint_table_written_out_in_full()
    {
        var told = 0;
        Prop.ForAll(Books, book =>
        {
            foreach (var question in VariantFinder.NextQuestions(book.Variants, book.Answers))
            {
                var expected = BruteForce.Bits(book, question.Trait);
                Assert.Equal(expected, question.Bits, 1e-9);
                told += question.Bits > 0.01 ? 1 : 0;
            }
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(400));
        Assert.True(told > 200, $"Only {told} questions told anything: the books are too plain to test with.");
    }

    [Fact]
    public void The_first_question_is_never_worse_than_another_and_never_tells_more_than_there_is_to_know() =>
        Prop.ForAll(Books, book =>
        {
            var next = VariantFinder.NextQuestions(book.Variants, book.Answers);
            var most = Math.Log2(VariantFinder.StillFit(book.Variants, book.Answers).Count);
            Assert.All(next, question => Assert.InRange(question.Bits, 0, Math.Min(next[0].Bits, most + 1e-9)));
            Assert.Equal(BruteForce.OpenTraits(book), next.Select(question => question.Trait).Order(StringComparer.Ordinal));
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(400));

    [Fact]
    public void Ranking_agrees_with_counting_by_hand() =>
        Prop.ForAll(Books, book =>
        {
            var ranked = VariantFinder.Rank(book.Variants, book.Answers);
            Assert.Equal(BruteForce.Ranked(book), ranked.Select(fit => fit.Variant));
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(400));

    private static Trait[] Said(params string[] lines) => [.. lines.Select(line => Trait.Read(line)!)];

    private static TraitsOf Variant(string name, params string[] lines) => new(name, Said(lines));

    /// <summary>Up to six variants over up to four traits of up to three values; gaps and doubled values included.</summary>
    private static readonly Arbitrary<Book> Books =
        Gen.Choose(0, 1_000_000).ArrayOf(40).Select(Book.Of).ToArbitrary();

    internal sealed record Book(TraitsOf[] Variants, Trait[] Answers)
    {
        public static Book Of(int[] numbers)
        {
            var next = 0;
            int Take(int below) => numbers[next++ % numbers.Length] / (next + 1) % below;
            var variants = Enumerable.Range(0, 1 + Take(6)).Select(number => new TraitsOf($"V{number}",
                [.. Enumerable.Range(0, 4).SelectMany(trait => Enumerable.Range(0, Take(3)).Select(_ => new Trait($"t{trait}", $"v{Take(3)}")))])).ToArray();
            var answers = Enumerable.Range(0, Take(3)).Select(_ => new Trait($"t{Take(4)}", $"v{Take(3)}")).ToArray();
            return new Book(variants, answers);
        }

        public override string ToString() => $"{string.Join(" | ", Variants.Select(one => $"{one.Variant}: {string.Join(", ", one.Traits)}"))} ? {string.Join<Trait>(", ", Answers)}";
    }
}
