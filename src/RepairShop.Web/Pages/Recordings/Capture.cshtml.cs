using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.ShutterTests;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Work;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>Records the shutter in the page: the script sends each release as a small WAV file, the server answers with its figures.</summary>
public sealed class CaptureModel(
    WorkService work, RecordingService recordings, RecordingReadService read, ShutterTestService tests, IFileVersionProvider versions) : PageModel
{
    /// <summary>One stay at this page; it is in the address, so that a reload finds its releases again.</summary>
    [BindProperty(SupportsGet = true)]
    public Guid? Session { get; set; }

    [BindProperty(SupportsGet = true)]
    public Guid? Test { get; set; }

    [BindProperty]
    [StringLength(40)]
    public string? Mark { get; set; }

    [BindProperty]
    public string? Text { get; set; }

    public View Shown { get; private set; } = null!;

    public ReleasesView Releases { get; private set; } = null!;

    public string Worklet => versions.AddFileVersionToPath(Request.PathBase, Url.Content("~/js/capture-worklet.js"));

    public async Task<IActionResult> OnGetAsync(string number, string phase, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        return Session is null ? RedirectToPage(new { number, phase, session = Guid.CreateVersion7(), test = Test }) : Page();
    }

    /// <summary>One release from the script: the table anew, or one sentence why there is no figure.</summary>
    public async Task<IActionResult> OnPostReleaseAsync(
        string number, string phase, Guid release, int lost, List<ChannelRole> roles, IFormFile? file, CancellationToken ct)
    {
        if (Session is not { } session || file is null || !await LoadAsync(number, phase, ct))
            return NotFound();
        await using var content = file.OpenReadStream();
        var kept = await recordings.AddAsync(Shown.Repair.Id, Shown.Phase, Test, new RecordingSent(
            $"release-{release:N}.wav", content, new RigInput { Roles = roles.Count > 0 ? roles : [ChannelRole.Light] }.Facts(), Mark ?? "", "")
        {
            Id = release,
            CaptureSession = session,
            LostBlocks = Math.Clamp(lost, 0, 1_000_000),
        }, ct);
        return await FetchedAsync(kept.Failure, kept.Value?.TestId, ct);
    }

    public async Task<IActionResult> OnPostStrikeOutAsync(string number, string phase, Guid reading, string? reason, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        var struck = await tests.StrikeOutAsync(Shown.Repair.Id, reading, reason, ct);
        return IsFetched
            ? await FetchedAsync(struck.Failure, Test, ct)
            : await this.Answer(struck, "Struck out. It stays here with your reason.", () => RedirectToPage(new { number, phase, session = Session }));
    }

    public async Task<IActionResult> OnPostTypedAsync(string number, string phase, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        var typed = await tests.AddTypedAsync(Shown.Repair.Id, Shown.Phase, Test ?? Releases.Test, new SpeedTyped(Mark ?? "", Text ?? ""), ct);
        if (IsFetched)
            return await FetchedAsync(typed.Failure, typed.Value, ct);
        return await this.Answer(typed, "The typed time is saved.", test => RedirectToPage(new { number, phase, session = Session, test }));
    }

    private bool IsFetched => Request.Headers.XRequestedWith == "fetch";

    private async Task<IActionResult> FetchedAsync(Failure? failure, Guid? test, CancellationToken ct)
    {
        if (failure is not null)
            return new ContentResult { StatusCode = StatusCodes.Status422UnprocessableEntity, Content = failure.Message, ContentType = "text/plain; charset=utf-8" };
        Releases = await ReleasesAsync(test, ct);
        return Partial("_Releases", Releases);
    }

    private async Task<ReleasesView> ReleasesAsync(Guid? test, CancellationToken ct)
    {
        var session = Session ?? Guid.Empty;
        return new ReleasesView(
            Shown.Repair.Number, Phases.Path(Shown.Phase), session, test ?? await recordings.TestOfAsync(Shown.Repair.Id, session, ct),
            await read.ReleasesAsync(Shown.Repair.Id, session, ct));
    }

    private async Task<bool> LoadAsync(string number, string phase, CancellationToken ct)
    {
        if (Phases.Read(phase) is not { } asked || await work.FindAsync(number, ct) is not { } repair)
            return false;
        Shown = new View(repair, asked, await tests.DialAsync(repair.Id, ct));
        Releases = await ReleasesAsync(Test, ct);
        Test = Releases.Test;
        Mark ??= Shown.Dial.Select(mark => mark.Mark).FirstOrDefault();
        return true;
    }

    public sealed record View(RepairHead Repair, Phase Phase, IReadOnlyList<(string Mark, string Shown, double Seconds)> Dial);
}
