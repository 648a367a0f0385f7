using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Notebook;

/// <summary>One step of a model's guide: what comes off and how. Its place in the list is its place in the work.</summary>
public sealed record GuideStep
{
    public string What { get; init; } = "";

    /// <summary>How many come off, without shims; 0 where only shims do.</summary>
    public int Count { get; init; } = 1;

    public HeldBy HeldBy { get; init; }

    public Remember Remember { get; init; }

    public string Note { get; init; } = "";

    public string ShimPlace { get; init; } = "";

    public int ShimCount { get; init; }

    /// <summary>All of them together as found, in millimetres.</summary>
    public double? ShimMillimetres { get; init; }

    /// <summary>From the record of a repair; the tray and what became of things are that repair's own.</summary>
    public static GuideStep Of(StripStep step) => Of(StepFacts.Of(step));

    public static GuideStep Of(StepFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        return new()
        {
            What = facts.What,
            Count = facts.Count,
            HeldBy = facts.HeldBy,
            Remember = facts.Remember,
            Note = facts.Note,
            ShimPlace = facts.ShimPlace,
            ShimCount = facts.ShimCount,
            ShimMillimetres = facts.ShimMillimetres,
        };
    }

    /// <summary>As it would be written into a repair's record, in no tray yet.</summary>
    public StepFacts ToFacts() => new(What, Count, HeldBy, Remember, Note, ShimPlace, ShimCount, ShimMillimetres, null, "");
}

/// <summary>A model's guide as it was saved once. Never changed: improving it makes the next version.</summary>
public sealed class GuideVersion
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid PageId { get; set; }

    /// <summary>1 for the first, then one more each time.</summary>
    public int Number { get; set; }

    public List<GuideStep> Steps { get; set; } = [];

    /// <summary>Its words one after another, for searching.</summary>
    public string Text { get; set; } = "";

    /// <summary>What was improved.</summary>
    public string Note { get; set; } = "";

    /// <summary>The repair whose record it was taken from; null when it was written by hand or brought in.</summary>
    public Guid? FromRepairId { get; set; }

    public DateTimeOffset SavedAt { get; set; }

    public Guid SavedBy { get; set; }
}

/// <summary>What a guide must hold.</summary>
public static class GuideRules
{
    public const int MostSteps = 1000;

    /// <summary>The steps as they are kept, or the first thing that is wrong with one, named by its place.</summary>
    public static Result<List<GuideStep>> Check(IReadOnlyList<GuideStep> steps)
    {
        ArgumentNullException.ThrowIfNull(steps);
        if (steps.Count == 0)
            return new GuideEmpty();
        if (steps.Count > MostSteps)
            return new GuideTooLong(steps.Count);
        var kept = new List<GuideStep>(steps.Count);
        foreach (var step in steps)
        {
            // The rules of the record hold here too: a guide is a record to come.
            var written = new StripStep { Id = Guid.Empty };
            if (StepRules.Write(written, step.ToFacts(), tray: null) is { IsDone: false } refused)
                return new GuideStepWrong(kept.Count, refused.Failure);
            kept.Add(GuideStep.Of(written));
        }

        return kept;
    }

    public static string TextOf(IEnumerable<GuideStep> steps) => string.Join('\n', steps.SelectMany(step =>
        new[] { step.What, step.Note, step.ShimPlace, string.Join(", ", StripWords.Of(step.Remember)) }).Where(text => text.Length > 0));

    /// <summary>Which things two steps are about is told by their words alone, without regard to case and blanks at the ends.</summary>
    public static bool AreAlike(GuideStep one, GuideStep other) =>
        string.Equals(TypedText.OneLine(one.What), TypedText.OneLine(other.What), StringComparison.OrdinalIgnoreCase);
}
