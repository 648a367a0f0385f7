namespace RepairShop.Measurement.Checks;

/// <summary>How a value stands to its limits (four states after ILAC-G8:09/2019, 4.2.2, non-binary statement with guard band w = U).</summary>
public enum Verdict
{
    /// <summary>No limits or no reference: nothing to judge by.</summary>
    NotJudged,

    /// <summary>Inside the limits by at least U: less than 2.5 % risk that it is outside.</summary>
    Within,

    /// <summary>Inside the limits, but nearer to one than U, or U is not known.</summary>
    WithinNotProven,

    /// <summary>Outside the limits, but by no more than U, or U is not known.</summary>
    OutsideNotProven,

    /// <summary>Outside the limits by more than U.</summary>
    Outside,
}
