namespace RepairShop.Domain.StripDown;

/// <summary>What a person says about one step.</summary>
/// <param name="Cell">As typed: B3; empty for what lies in no cell.</param>
public sealed record StepFacts(
    string What, int Count, HeldBy HeldBy, Remember Remember, string Note, string ShimPlace, int ShimCount, double? ShimMillimetres,
    Guid? TrayId, string Cell)
{
    public static StepFacts Of(StripStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return new(step.What, step.Count, step.HeldBy, step.Remember, step.Note, step.ShimPlace, step.ShimCount, step.ShimMillimetres,
            step.TrayId, step.Cell?.ToString() ?? "");
    }
}
