using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.StripDown;
using RepairShop.Services.StripDown;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>The form of one step, new or old.</summary>
public sealed class StepInput
{
    [Display(Name = "What came off"), StringLength(200)]
    public string What { get; set; } = "";

    [Display(Name = "How many")]
    public int Count { get; set; } = 1;

    [Display(Name = "Held by")]
    public HeldBy HeldBy { get; set; }

    [Display(Name = "Remember")]
    public List<Remember> Remember { get; set; } = [];

    [StringLength(2000)]
    public string? Note { get; set; }

    [Display(Name = "Where the shims lay"), StringLength(200)]
    public string? ShimPlace { get; set; }

    [Display(Name = "Shims")]
    public int? ShimCount { get; set; }

    [Display(Name = "Measured thickness, together")]
    public double? ShimMillimetres { get; set; }

    [Display(Name = "Tray")]
    public Guid? TrayId { get; set; }

    [StringLength(8)]
    public string? Cell { get; set; }

    /// <summary>The step it follows; empty for the end of the record.</summary>
    public Guid? After { get; set; }

    public uint Version { get; set; }

    public Guid Once { get; set; } = Guid.CreateVersion7();

    /// <summary>Sent from the queue of a device that was cut off.</summary>
    public bool FromQueue { get; set; }

    public StepFacts Typed() => new(
        What, Count, HeldBy, Remember.Aggregate(Domain.StripDown.Remember.None, (all, one) => all | one), Note ?? "",
        ShimPlace ?? "", ShimCount ?? 0, ShimMillimetres, TrayId, Cell ?? "");

    public StepEntry Entry() => new(Once, After, FromQueue);

    public static StepInput Next(NextEntry next, Guid? after) =>
        new() { HeldBy = next.HeldBy, TrayId = next.TrayId, Cell = next.Cell, After = after };

    public static StepInput Of(StepLine step)
    {
        var input = Of(step.Facts);
        input.Version = step.Version;
        return input;
    }

    public static StepInput Of(StepFacts facts) => new()
    {
        What = facts.What,
        Count = facts.Count,
        HeldBy = facts.HeldBy,
        Remember = [.. StripWords.AllFlags.Where(flag => facts.Remember.HasFlag(flag))],
        Note = facts.Note,
        ShimPlace = facts.ShimPlace,
        ShimCount = facts.ShimCount > 0 ? facts.ShimCount : null,
        ShimMillimetres = facts.ShimMillimetres,
        TrayId = facts.TrayId,
        Cell = facts.Cell,
    };

    public static IEnumerable<SelectListItem> Trays(IEnumerable<TrayLine> trays) =>
        trays.Select(tray => new SelectListItem($"Tray {tray.Name}", $"{tray.Id}")).Append(new SelectListItem("beside the trays", ""));

    public static IEnumerable<SelectListItem> Holds() =>
        Enum.GetValues<HeldBy>().Select(held => new SelectListItem(StripWords.Of(held), $"{held}"));
}
