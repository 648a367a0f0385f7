using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Notebook;

/// <summary>How one step of the guide compares with this time.</summary>
public enum StepDifference
{
    Same,
    Changed,

    /// <summary>In the guide, not this time.</summary>
    LeftOut,

    /// <summary>This time, not in the guide.</summary>
    Added,

    /// <summary>In both, but earlier or later in the order.</summary>
    Moved,
}

/// <summary>One line of a comparison.</summary>
/// <param name="Guide">The guide's step and its place from 0; null where the guide has none.</param>
/// <param name="Now">The step of this time and its place from 0; null where it has none.</param>
/// <param name="Fields">What differs in a step that is in both.</param>
public sealed record StepPair(StepDifference Kind, PlacedStep? Guide, PlacedStep? Now, IReadOnlyList<StepField> Fields);

public sealed record PlacedStep(int Place, GuideStep Step);

/// <summary>This time against the guide, or one version against another.</summary>
public static class GuideDifferences
{
    /// <summary>
    /// Every step of both, once. The longest run of steps common to both in the same order (longest common subsequence;
    /// Wagner and Fischer 1974, The String-to-String Correction Problem) stays in place; a step in both but outside it has moved.
    /// Lines come in the order of this time, a step left out where it stood in the guide.
    /// </summary>
    public static IReadOnlyList<StepPair> Between(IReadOnlyList<GuideStep> guide, IReadOnlyList<GuideStep> now)
    {
        var partner = InOrder(guide, now);
        var moved = Elsewhere(guide, now, partner);
        var lines = new List<StepPair>();
        var place = 0;
        void LeaveOutUpTo(int end)
        {
            for (; place < end; place++)
            {
                if (!partner.ContainsValue(place) && !moved.ContainsValue(place))
                    lines.Add(new StepPair(StepDifference.LeftOut, new PlacedStep(place, guide[place]), null, []));
            }
        }

        for (var at = 0; at < now.Count; at++)
        {
            var here = new PlacedStep(at, now[at]);
            if (partner.TryGetValue(at, out var there))
            {
                LeaveOutUpTo(there);
                var fields = Fields(guide[there], now[at]);
                lines.Add(new StepPair(fields.Count == 0 ? StepDifference.Same : StepDifference.Changed, new PlacedStep(there, guide[there]), here, fields));
            }
            else if (moved.TryGetValue(at, out var from))
            {
                lines.Add(new StepPair(StepDifference.Moved, new PlacedStep(from, guide[from]), here, Fields(guide[from], now[at])));
            }
            else
            {
                lines.Add(new StepPair(StepDifference.Added, null, here, []));
            }
        }

        LeaveOutUpTo(guide.Count);
        return lines;
    }

    /// <summary>What differs between two steps about the same thing.</summary>
    public static IReadOnlyList<StepField> Fields(GuideStep guide, GuideStep now)
    {
        ArgumentNullException.ThrowIfNull(guide);
        ArgumentNullException.ThrowIfNull(now);
        return StepDifferences.Between(guide.ToFacts(), now.ToFacts());
    }

    /// <summary>Places of this time and their partners in the guide along the longest common run.</summary>
    private static Dictionary<int, int> InOrder(IReadOnlyList<GuideStep> guide, IReadOnlyList<GuideStep> now)
    {
        var longest = new int[guide.Count + 1, now.Count + 1];
        for (var i = guide.Count - 1; i >= 0; i--)
        {
            for (var j = now.Count - 1; j >= 0; j--)
                longest[i, j] = GuideRules.AreAlike(guide[i], now[j]) ? longest[i + 1, j + 1] + 1 : Math.Max(longest[i + 1, j], longest[i, j + 1]);
        }

        var partner = new Dictionary<int, int>();
        for (int i = 0, j = 0; i < guide.Count && j < now.Count;)
        {
            if (GuideRules.AreAlike(guide[i], now[j]))
                partner[j++] = i++;
            else if (longest[i + 1, j] >= longest[i, j + 1])
                i++;
            else
                j++;
        }

        return partner;
    }

    /// <summary>Of what is left on both sides, like goes with like in the order it stands.</summary>
    private static Dictionary<int, int> Elsewhere(IReadOnlyList<GuideStep> guide, IReadOnlyList<GuideStep> now, Dictionary<int, int> partner)
    {
        var moved = new Dictionary<int, int>();
        var free = Enumerable.Range(0, guide.Count).Except(partner.Values).ToList();
        for (var at = 0; at < now.Count; at++)
        {
            if (partner.ContainsKey(at))
                continue;
            var index = free.FindIndex(place => GuideRules.AreAlike(guide[place], now[at]));
            if (index < 0)
                continue;
            moved[at] = free[index];
            free.RemoveAt(index);
        }

        return moved;
    }
}
