using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.StripDown;
using Xunit;

namespace RepairShop.Domain.Tests.Notebook;

public sealed class GuideDifferencesTests
{
    private static readonly Arbitrary<(string Guide, string Now)> Orders =
        Gen.Choose(0, 5).Select(letter => (char)('a' + letter)).ListOf().Select(list => new string([.. list.Take(9)])).Two()
            .Select(pair => (pair.Item1, pair.Item2)).ToArbitrary();

    [Fact]
    public void The_same_steps_have_no_differences()
    {
        GuideStep[] steps = [Step("Front ring"), Step("Top plate screw") with { Count = 3 }];
        Assert.All(GuideDifferences.Between(steps, steps), line => Assert.Equal(StepDifference.Same, line.Kind));
    }

    [Fact]
    public void What_was_left_out_added_changed_and_moved_is_told_in_the_order_of_this_time()
    {
        GuideStep[] guide = [Step("Front ring"), Step("Name plate"), Step("Cocking ring"), Step("Speed ring"), Step("Spring")];
        GuideStep[] now = [Step("Name plate"), Step("Felt washer"), Step("cocking ring ") with { Count = 2, Remember = Remember.Orientation }, Step("Spring"), Step("Front ring")];
        var lines = GuideDifferences.Between(guide, now);
        Assert.Equal(
            ["Same Name plate", "Added Felt washer", "Changed cocking ring ", "LeftOut Speed ring", "Same Spring", "Moved Front ring"],
            lines.Select(line => $"{line.Kind} {(line.Now ?? line.Guide)!.Step.What}"));
        Assert.Equal(["What", "Count", "Remember"], lines[2].Fields.Select(field => field.Name));
        Assert.Equal(("", "mind the orientation"), (lines[2].Fields[2].Before, lines[2].Fields[2].Now));
        Assert.Equal((0, 4), (lines[5].Guide!.Place, lines[5].Now!.Place));
    }

    [Fact]
    public void A_shim_of_another_thickness_is_a_change_of_the_step()
    {
        var shim = Step("Lens standard") with { ShimPlace = "left", ShimCount = 2, ShimMillimetres = 0.15 };
        var line = Assert.Single(GuideDifferences.Between([shim], [shim with { ShimMillimetres = 0.2 }]));
        Assert.Equal(StepDifference.Changed, line.Kind);
        Assert.Equal("Shims", Assert.Single(line.Fields).Name);
    }

    [Fact]
    public void Every_step_of_both_sides_stands_in_the_comparison_exactly_once() =>
        Prop.ForAll(Orders, pair =>
        {
            var lines = Compare(pair);
            Assert.Equal(Enumerable.Range(0, pair.Now.Length), lines.Select(line => line.Now?.Place).OfType<int>());
            Assert.Equal(Enumerable.Range(0, pair.Guide.Length), lines.Select(line => line.Guide?.Place).OfType<int>().Order());
            Assert.All(lines.Where(line => line is { Guide: not null, Now: not null }), line => Assert.Equal(line.Guide!.Step.What, line.Now!.Step.What));
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(500));

    [Fact]
    public void As_many_steps_stay_in_place_as_trying_every_choice_finds() =>
        Prop.ForAll(Orders, pair =>
        {
            var kept = Compare(pair).Where(line => line.Kind == StepDifference.Same).Select(line => line.Guide!.Place).ToList();
            Assert.Equal(kept.Order(), kept);
            Assert.Equal(LongestByTryingAll(pair.Guide, pair.Now), kept.Count);
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(300));

    [Fact]
    public void Nothing_is_called_left_out_and_added_at_once() =>
        Prop.ForAll(Orders, pair =>
        {
            var lines = Compare(pair);
            var gone = lines.Where(line => line.Kind == StepDifference.LeftOut).Select(line => line.Guide!.Step.What);
            Assert.Empty(gone.Intersect(lines.Where(line => line.Kind == StepDifference.Added).Select(line => line.Now!.Step.What)));
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(500));

    private static GuideStep Step(string what) => new() { What = what, HeldBy = HeldBy.Screw };

    private static IReadOnlyList<StepPair> Compare((string Guide, string Now) pair) => GuideDifferences.Between(
        [.. pair.Guide.Select(letter => Step($"{letter}"))], [.. pair.Now.Select(letter => Step($"{letter}"))]);

    /// <summary>Every choice of places of the one, longest that is also a run of the other.</summary>
    private static int LongestByTryingAll(string one, string other)
    {
        var longest = 0;
        for (var choice = 0; choice < 1 << one.Length; choice++)
        {
            var run = new string([.. one.Where((_, place) => (choice >> place & 1) == 1)]);
            if (run.Length > longest && IsRunOf(run, other))
                longest = run.Length;
        }

        return longest;
    }

    private static bool IsRunOf(string run, string other)
    {
        var found = 0;
        foreach (var letter in other)
        {
            if (found < run.Length && run[found] == letter)
                found++;
        }

        return found == run.Length;
    }
}
