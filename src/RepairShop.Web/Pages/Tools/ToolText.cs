using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;

namespace RepairShop.Web.Pages.Tools;

/// <summary>Choices and words of the tools' pages.</summary>
public static class ToolText
{
    public static IReadOnlyList<SelectListItem> Kinds { get; } = [.. Enum.GetValues<ToolKind>().Select(kind => new SelectListItem(ToolWords.Of(kind), kind.ToString()))];

    public static IReadOnlyList<SelectListItem> Units { get; } = [new("millimetres", nameof(LengthUnit.Millimetre)), new("inches", nameof(LengthUnit.Inch))];

    /// <summary>A clearance's class, shared with verdicts: the mark differs in form.</summary>
    public static string ClassOf(ClearanceState state) => state switch
    {
        ClearanceState.Free => "within",
        ClearanceState.Tight => "unproven",
        ClearanceState.Loose => "outside-unproven",
        _ => "outside",
    };

    public static string Verdict(RingSpannerFit fit) => fit switch
    {
        { CanBeMade: false } => "No tube fits here: between recess and rear group there is too little room for its wall.",
        { Verdict: ClearanceState.Free } => "It fits.",
        { Verdict: ClearanceState.Tight } => "It goes in, but tight.",
        { Verdict: ClearanceState.Loose } => "It goes in, but its pins are loose and would burr the notches.",
        _ => "It does not go in.",
    };
}
