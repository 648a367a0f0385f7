using System.Globalization;

namespace RepairShop.Domain.StripDown;

/// <summary>One field of a step, before and now, in the words of screen and paper.</summary>
public sealed record StepField(string Name, string Before, string Now);

/// <summary>What differs between two ways of writing one step; where it lies is not compared.</summary>
public static class StepDifferences
{
    public static IReadOnlyList<StepField> Between(StepFacts before, StepFacts now)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(now);
        var fields = new[]
        {
            new StepField("What", before.What, now.What),
            new StepField("Count", Number(before.Count), Number(now.Count)),
            new StepField("Held by", StripWords.Of(before.HeldBy), StripWords.Of(now.HeldBy)),
            new StepField("Remember", string.Join(", ", StripWords.Of(before.Remember)), string.Join(", ", StripWords.Of(now.Remember))),
            new StepField("Note", before.Note, now.Note),
            new StepField("Shims", Shims(before), Shims(now)),
        };
        return [.. fields.Where(field => field.Before != field.Now)];
    }

    private static string Number(int count) => count.ToString(CultureInfo.CurrentCulture);

    private static string Shims(StepFacts step) => StripWords.Shims(step.ShimPlace, step.ShimCount, step.ShimMillimetres) ?? "";
}
