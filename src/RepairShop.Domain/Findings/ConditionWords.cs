namespace RepairShop.Domain.Findings;

/// <summary>The conditions of a component in the trade's words; the same on screen and paper.</summary>
public static class ConditionWords
{
    public static string Of(Condition condition) => condition switch
    {
        Condition.Sound => "sound",
        Condition.Worn => "worn",
        Condition.Damaged => "damaged",
        Condition.Contaminated => "contaminated",
        Condition.Missing => "missing",
        Condition.EarlierRepair => "earlier repair",
        _ => throw new ArgumentOutOfRangeException(nameof(condition), condition, null),
    };
}
