using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>A word and a mark that differs in form: never by colour.</summary>
internal static class VerdictWords
{
    public static string Of(LimitVerdict? verdict) => verdict switch
    {
        null => "not judged",
        LimitVerdict.Within => "✓ within",
        LimitVerdict.WithinNotProven => "◊ within, not proven",
        LimitVerdict.OutsideNotProven => "△ outside, not proven",
        LimitVerdict.Outside => "▲ outside",
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "No such verdict."),
    };

    public static string Of(CheckOutcome? outcome) => outcome switch
    {
        null => "–",
        CheckOutcome.Fine => "✓ fine",
        CheckOutcome.Faulty => "▲ faulty",
        CheckOutcome.NotTested => "not tested",
        CheckOutcome.NotFitted => "not fitted",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "No such outcome."),
    };
}
