using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

public sealed class FitModel(ToolService tools, MountService mounts) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public FitInput Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    /// <param name="tool">A spanner of the register whose measures are wanted.</param>
    /// <param name="mount">A mount of the register whose measures are wanted.</param>
    /// <param name="take">The button that takes them, over what was typed.</param>
    /// <param name="ct">Stops.</param>
    public async Task<IActionResult> OnGetAsync(Guid? tool, Guid? mount, bool take, CancellationToken ct)
    {
        await LoadAsync(tool, mount, ct);
        var sent = this.IsSent();
        if (take || (!sent && (tool ?? mount) is not null))
            return Taken(unitToo: !sent);
        // Half a spanner from the register is not yet wrong: what is missing is said when it is to be worked out.
        if (sent && (!Request.Query.ContainsKey("taken") || Input.Work().IsDone))
            Shown = Shown with { Fit = this.WorkOut(Input.Work) };
        return Page();
    }

    public async Task<IActionResult> OnPostKeepToolAsync(string? toolName, string? toolFits, CancellationToken ct)
    {
        await LoadAsync(null, null, ct);
        Shown = Shown with { Fit = this.WorkOut(Input.Work) };
        if (Shown.Fit is null)
            return Page();
        var kept = await tools.AddAsync(
            new ToolTyped(toolName ?? "", ToolKind.RingSpanner, toolFits ?? "", "", "", Input.Unit, Input.Spanner.Typed(Input.Unit), "", 0), ct);
        return await this.Answer(Renamed(kept, "toolName"), "Spanner kept in the register.", id => RedirectToPage("/Tools/Tool", new { id }));
    }

    public async Task<IActionResult> OnPostKeepMountAsync(string? mountCamera, string? mountName, CancellationToken ct)
    {
        await LoadAsync(null, null, ct);
        Shown = Shown with { Fit = this.WorkOut(Input.Work) };
        if (Shown.Fit is null)
            return Page();
        var kept = await mounts.AddAsync(new MountTyped(mountCamera ?? "", mountName ?? "", "", Input.Unit, Input.Mount.Typed(Input.Unit), 0), ct);
        return await this.Answer(Renamed(kept, "mountName"), "Mount kept in the register.", id => RedirectToPage("/Tools/Mount", new { id }));
    }

    private async Task LoadAsync(Guid? tool, Guid? mount, CancellationToken ct) =>
        Shown = new View(await tools.RingSpannersAsync(ct), await mounts.ChoicesAsync(ct), tool, mount, null);

    /// <summary>The same page with the register's measures in its address, so that it can be kept, sent and printed.</summary>
    private LocalRedirectResult Taken(bool unitToo)
    {
        var spanner = Shown.Spanners.FirstOrDefault(one => one.Id == Shown.Tool);
        var mount = Shown.Mounts.FirstOrDefault(one => one.Id == Shown.Mount);
        if (unitToo)
            Input.Unit = spanner?.Unit ?? mount?.Unit ?? LengthUnit.Millimetre;
        if (spanner is not null)
            Input.Spanner = SpannerInput.Of(spanner.Spanner, Input.Unit);
        if (mount is not null)
            Input.Mount = MountFields.Of(mount.Measures, Input.Unit);
        var query = QueryString.Create(Input.Fields())
            .Add("tool", $"{spanner?.Id}").Add("mount", $"{mount?.Id}").Add("taken", "true");
        return LocalRedirect($"~/tools/fit{query}");
    }

    /// <summary>The register's sentence about an empty name, at the field this page has for it.</summary>
    private static Result<Guid> Renamed(Result<Guid> kept, string field) =>
        kept.Failure is Invalid { Field: "Name" or "Camera" } missing ? new NameToKeepMissing(missing.Field == "Camera" ? "mountCamera" : field) : kept;

    public sealed record View(IReadOnlyList<ToolLine> Spanners, IReadOnlyList<MountLine> Mounts, Guid? Tool, Guid? Mount, RingSpannerFit? Fit);

    private sealed record NameToKeepMissing(string At) : Invalid(At, "Give it a name before it is kept.");
}
