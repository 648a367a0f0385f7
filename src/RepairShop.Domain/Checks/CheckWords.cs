namespace RepairShop.Domain.Checks;

/// <summary>Phases and outcomes as they are written on screen and paper.</summary>
public static class CheckWords
{
    public static string Of(Phase phase) => phase switch
    {
        Phase.AsReceived => "as received",
        Phase.DuringWork => "during work",
        Phase.AfterService => "after service",
        _ => throw new ArgumentOutOfRangeException(nameof(phase), phase, null),
    };

    public static string Of(CheckOutcome outcome) => outcome switch
    {
        CheckOutcome.NotTested => "not tested",
        CheckOutcome.Fine => "fine",
        CheckOutcome.Faulty => "faulty",
        CheckOutcome.NotFitted => "not fitted",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, null),
    };
}
