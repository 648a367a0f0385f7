using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Parts;
using RepairShop.Domain.StripDown;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>What became of some pieces.</summary>
public sealed class FateInput
{
    [Display(Name = "How many of them")]
    public int? Count { get; set; }

    [Display(Name = "It is")]
    public ItemFate Fate { get; set; } = ItemFate.Refitted;

    [StringLength(500)]
    public string? Note { get; set; }

    [Display(Name = "Part fitted on this repair")]
    public Guid? PartUse { get; set; }

    [Display(Name = "New part"), StringLength(500)]
    public string? ReplacedBy { get; set; }

    [Display(Name = "Where it came from")]
    public Provenance Provenance { get; set; }

    [Display(Name = "The old one goes back in the bag")]
    public bool OldGoesBack { get; set; }

    public FateFacts Typed() => new(Fate, Note ?? "", PartUse, ReplacedBy ?? "", Provenance, OldGoesBack);
}

/// <summary>How some pieces went through the wash.</summary>
public sealed class WashInput
{
    [Display(Name = "Cleaned how"), StringLength(120)]
    public string? CleanedHow { get; set; }

    public bool Inspected { get; set; }

    [Display(Name = "Finding")]
    public Guid? FindingId { get; set; }

    public Lubrication Lubrication { get; set; }

    [Display(Name = "With what"), StringLength(120)]
    public string? Lubricant { get; set; }

    [Display(Name = "Where"), StringLength(200)]
    public string? LubricatedWhere { get; set; }

    public WashFacts Typed() => new(CleanedHow ?? "", Inspected, FindingId, Lubrication, Lubricant ?? "", LubricatedWhere ?? "");

    public static WashInput Of(WashFacts wash) => new()
    {
        CleanedHow = wash.CleanedHow,
        Inspected = wash.Inspected,
        FindingId = wash.FindingId,
        Lubrication = wash.Lubrication,
        Lubricant = wash.Lubricant,
        LubricatedWhere = wash.LubricatedWhere,
    };
}
