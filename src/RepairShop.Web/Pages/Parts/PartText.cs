using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Parts;
using RepairShop.Services.Parts;

namespace RepairShop.Web.Pages.Parts;

/// <summary>Choices and words about parts.</summary>
public static class PartText
{
    public static IEnumerable<SelectListItem> Provenances =>
        Enum.GetValues<Provenance>().Select(provenance => new SelectListItem(ProvenanceWords.Of(provenance), provenance.ToString()));

    public static IEnumerable<SelectListItem> Findings(PartsView parts) =>
        parts.Findings.Select(finding => new SelectListItem(finding.Component, finding.Id.ToString())).Prepend(new SelectListItem("none", ""));

    public static string Of(MovementKind kind) => kind switch
    {
        MovementKind.Received => "received",
        MovementKind.Used => "used",
        MovementKind.PutBack => "put back",
        MovementKind.CountCorrection => "count corrected",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
    };

    /// <summary>+3 or −1, with a true minus.</summary>
    public static string WithSign(decimal quantity) => (quantity < 0 ? "−" : "+") + StockAmount.Write(Math.Abs(quantity));
}
