using RepairShop.Domain.Paperwork;
using RepairShop.Measurement.Checks;

namespace RepairShop.Web.Pages.Work;

/// <summary>A verdict's class and its word; the mark before it differs in form.</summary>
public static class VerdictText
{
    public static (string Class, string Word) Of(Verdict verdict) => verdict switch
    {
        Verdict.Within => ("within", "within"),
        Verdict.WithinNotProven => ("unproven", "within, not proven"),
        Verdict.OutsideNotProven => ("outside-unproven", "outside, not proven"),
        Verdict.Outside => ("outside", "outside"),
        _ => ("none", "not judged"),
    };

    public static (string Class, string Word) Of(LimitVerdict? verdict) => verdict switch
    {
        LimitVerdict.Within => Of(Verdict.Within),
        LimitVerdict.WithinNotProven => Of(Verdict.WithinNotProven),
        LimitVerdict.OutsideNotProven => Of(Verdict.OutsideNotProven),
        LimitVerdict.Outside => Of(Verdict.Outside),
        _ => Of(Verdict.NotJudged),
    };
}
