using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>The booking facts as typed; used at booking in and when they are put right.</summary>
public sealed class RepairFields
{
    /// <summary>Common practice: what most often comes along.</summary>
    public static IReadOnlyList<string> Usual { get; } =
        ["case", "strap", "lens cap", "body cap", "filter", "hood", "film inside", "battery", "manual", "box"];

    [StringLength(4000), DataType(DataType.MultilineText)]
    public string Complaint { get; set; } = "";

    public List<string> CameWith { get; set; } = [];

    [Display(Name = "Other things that came with it"), StringLength(400)]
    public string? CameWithOther { get; set; }

    [Display(Name = "Condition on receipt"), StringLength(4000), DataType(DataType.MultilineText)]
    public string? Condition { get; set; }

    [Display(Name = "Declared value")]
    public decimal? DeclaredValue { get; set; }

    [Display(Name = "How it arrived")]
    public Arrival ArrivedHow { get; set; }

    [Display(Name = "Tracking number"), StringLength(120)]
    public string? ArrivalTracking { get; set; }

    [Display(Name = "Wanted by")]
    public DateOnly? WantedBy { get; set; }

    [Display(Name = "Promised for")]
    public DateOnly? PromisedFor { get; set; }

    [Display(Name = "Before work starts")]
    public Agreement Agreed { get; set; }

    [Display(Name = "Pre-approved limit")]
    public decimal? PreApprovedLimit { get; set; }

    [Display(Name = "Who agreed to the conditions"), StringLength(120)]
    public string? ConsentBy { get; set; }

    [Display(Name = "How they agreed")]
    public AnswerWay? ConsentHow { get; set; }

    [Display(Name = "When they agreed")]
    public DateOnly? ConsentOn { get; set; }

    [StringLength(60)]
    public string? Shelf { get; set; }

    public RepairInput ToInput() => new()
    {
        Complaint = Complaint,
        CameWith = [.. CameWith, .. (CameWithOther ?? "").Split([',', ';', '\n'], StringSplitOptions.RemoveEmptyEntries)],
        ConditionOnReceipt = Condition ?? "",
        DeclaredValue = DeclaredValue,
        ArrivedHow = ArrivedHow,
        ArrivalTracking = ArrivalTracking ?? "",
        WantedBy = WantedBy,
        PromisedFor = PromisedFor,
        EstimateFirst = Agreed == Agreement.EstimateFirst,
        PreApprovedLimit = PreApprovedLimit,
        ConsentBy = ConsentBy ?? "",
        ConsentHow = ConsentHow,
        ConsentOn = ConsentOn,
        Shelf = Shelf ?? "",
    };

    public static RepairFields Of(RepairInput input) => new()
    {
        Complaint = input.Complaint,
        CameWith = [.. input.CameWith.Intersect(Usual, StringComparer.OrdinalIgnoreCase)],
        CameWithOther = string.Join(", ", input.CameWith.Except(Usual, StringComparer.OrdinalIgnoreCase)),
        Condition = input.ConditionOnReceipt,
        DeclaredValue = input.DeclaredValue,
        ArrivedHow = input.ArrivedHow,
        ArrivalTracking = input.ArrivalTracking,
        WantedBy = input.WantedBy,
        PromisedFor = input.PromisedFor,
        Agreed = input.EstimateFirst ? Agreement.EstimateFirst : Agreement.UpToALimit,
        PreApprovedLimit = input.PreApprovedLimit,
        ConsentBy = input.ConsentBy,
        ConsentHow = input.ConsentHow,
        ConsentOn = input.ConsentOn,
        Shelf = input.Shelf,
    };
}

/// <summary>What was agreed about money at the counter.</summary>
public enum Agreement
{
    [Display(Name = "Estimate first")]
    EstimateFirst,

    [Display(Name = "Go ahead up to a limit")]
    UpToALimit,
}
