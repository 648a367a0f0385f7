using RepairShop.Domain.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>How a step differs, in a word and a mark of its own form.</summary>
public static class DifferenceText
{
    public static string Of(StepPair line) => line.Kind switch
    {
        StepDifference.Added => "new",
        StepDifference.LeftOut => "left out",
        StepDifference.Moved => $"moved, was step {line.Guide!.Place + 1}",
        StepDifference.Changed => "changed",
        _ => "",
    };

    public static string Mark(StepDifference kind) => kind switch
    {
        StepDifference.Added => "+",
        StepDifference.LeftOut => "−",
        StepDifference.Moved => "↕",
        _ => "≠",
    };
}
