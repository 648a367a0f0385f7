namespace RepairShop.Domain.StripDown;

/// <summary>Something that came out of the camera and is not accounted for yet.</summary>
/// <param name="Place">Tray and cell as people say them: tray 1, B3; empty for what lies in no cell.</param>
public sealed record OutItem(string What, int Count, string Place, Remember Remember)
{
    public override string ToString() => StripWords.Counted(Count, What) + (Place.Length > 0 ? $" ({Place})" : " (no cell)");
}

/// <summary>How far putting together has come, in pieces; screws that were only backed off count as pieces to tighten.</summary>
public readonly record struct StripProgress(int Removed, int Out, int Refitted, int Replaced, int Returned, int WrittenOff, int BackedOff, int Tightened)
{
    public int Done => Removed - Out + Tightened;

    public int All => Removed + BackedOff;

    public bool HasStarted => All > 0;

    public static StripProgress Of(IEnumerable<StripStep> steps)
    {
        ArgumentNullException.ThrowIfNull(steps);
        var kept = steps.Where(step => step.StruckOutAt is null).ToList();
        var lots = kept.SelectMany(step => step.Items).ToList();
        int Fated(ItemFate fate) => lots.Where(lot => lot.Fate == fate).Sum(lot => lot.Count);
        var backed = kept.Where(step => step.BacksOffOnly).ToList();
        return new(
            lots.Sum(lot => lot.Count), Fated(ItemFate.StillOut), Fated(ItemFate.Refitted), Fated(ItemFate.Replaced), Fated(ItemFate.Returned),
            Fated(ItemFate.WrittenOff), backed.Sum(step => step.Count), backed.Where(step => step.TightenedAt is not null).Sum(step => step.Count));
    }

    /// <summary>For a camera whose repair was declined: how it goes back. Null while something is still out, or nothing ever was.</summary>
    public string? DeclinedOutcome => Removed == 0 || Out > 0 ? null
        : Refitted == Removed ? "returned as received, reassembled"
        : $"reassembled, but not as received: {string.Join(", ", Exceptions())}";

    private IEnumerable<string> Exceptions()
    {
        foreach (var (count, words) in new[] { (Replaced, "replaced"), (Returned, "returned in the bag"), (WrittenOff, "written off") })
        {
            if (count > 0)
                yield return $"{count} {words}";
        }
    }
}
