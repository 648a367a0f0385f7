using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Recordings;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.ShutterTests;
using RepairShop.Web.Forms;
using RepairShop.Web.Hosting;
using RepairShop.Web.Pages.Work;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>A recording's file comes in; it is streamed to the disk, never held in memory.</summary>
[RequestSizeLimit(SizeLimit.RecordingBytes)]
[RequestFormLimits(MultipartBodyLengthLimit = SizeLimit.RecordingBytes)]
public sealed class AddModel(WorkService work, RecordingService recordings) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, string phase, Guid? test, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        Input.Test = test;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, string phase, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        if (Input.File is null && ModelState.IsValid)
            this.Note(new NoFileChosen());
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        await using var content = Input.File!.OpenReadStream();
        var kept = await recordings.AddAsync(Shown.Repair.Id, Shown.Phase, Input.Test, new RecordingSent(
            Path.GetFileName(Input.File.FileName), content, Input.Rig.Facts(), Input.Marks ?? "", Input.Instrument ?? ""), ct);
        return await this.Answer(
            kept, kept.Value is { } done ? done.Assigned == done.Exposures ? "The recording is kept and its exposures are readings." : "The recording is kept. Say which speed each exposure is." : null,
            one => RedirectToPage("/Recordings/One", new { number, id = one.Id }));
    }

    private async Task<bool> LoadAsync(string number, string phase, CancellationToken ct)
    {
        if (Phases.Read(phase) is not { } read || await work.FindAsync(number, ct) is not { } repair)
            return false;
        Shown = new View(repair, read);
        return true;
    }

    public sealed class InputModel
    {
        public Guid? Test { get; set; }

        public IFormFile? File { get; set; }

        [StringLength(2000)]
        public string? Marks { get; set; }

        [StringLength(200)]
        public string? Instrument { get; set; } = ShutterTestService.RecordedWith;

        public RigInput Rig { get; set; } = new();

        public bool IsOwnRig => Rig.Coupling != InputCoupling.Auto || Rig.Reference is not null || Rig.Roles.Skip(1).Any(role => role != ChannelRole.Unused);
    }

    public sealed record View(RepairHead Repair, Phase Phase);
}
