using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.ShutterTests;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>One recording: which speed each exposure is, which ones don't count, how it was recorded, analysed again.</summary>
public sealed class OneModel(WorkService work, RecordingReadService read, RecordingService recordings, ShutterTestService tests) : PageModel
{
    [BindProperty]
    public List<ExposureInput> Exposures { get; set; } = [];

    [BindProperty]
    public RigInput Rig { get; set; } = new();

    [BindProperty]
    public uint Version { get; set; }

    public View Shown { get; private set; } = null!;

    public bool IsRigOpen { get; private set; }

    public async Task<IActionResult> OnGetAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        (Rig, Version) = (RigInput.Of(Shown.Recording.Rig), Shown.Recording.Version);
        return Page();
    }

    public async Task<IActionResult> OnPostAssignAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        var marks = Exposures.DistinctBy(one => one.Number).ToDictionary(one => one.Number, one => one.Mark ?? "");
        return await AnswerAsync(await recordings.AssignAsync(Shown.Repair.Id, id, marks, ct), "The speeds are saved.");
    }

    public async Task<IActionResult> OnPostStrikeOutAsync(string number, Guid id, Guid reading, string? reason, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        return await AnswerAsync(await tests.StrikeOutAsync(Shown.Repair.Id, reading, reason, ct), "Struck out. It stays here with your reason.");
    }

    public async Task<IActionResult> OnPostAgainAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        IsRigOpen = true;
        this.OnlyCheck("Rig");
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var again = await recordings.AnalyseAgainAsync(Shown.Repair.Id, id, Rig.Facts(), Version, ct);
        if (!again.IsDone)
            return await this.Answer(again, null, () => RedirectToPage());
        this.Tell("Analysed again. The readings before are struck out and kept.");
        return RedirectToPage(new { number, id });
    }

    /// <summary>How the input turned out to be coupled, in a sentence.</summary>
    public static string Coupling(RecordingSummary summary) => summary switch
    {
        { Coupling: InputCoupling.Ac, TimeConstantSeconds: { } tau } => $"The input is AC-coupled with a time constant of {tau * 1000:0.0} ms; its droop is taken out.",
        { Coupling: InputCoupling.Dc } => "The input is DC-coupled.",
        _ => "",
    };

    private Task<IActionResult> AnswerAsync(Result result, string notice)
    {
        ModelState.Clear();
        (Rig, Version) = (RigInput.Of(Shown.Recording.Rig), Shown.Recording.Version);
        return this.Answer(result, notice, () => RedirectToPage());
    }

    private async Task<bool> LoadAsync(string number, Guid id, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        var found = await read.GetAsync(repair.Id, id, ct);
        if (!found.IsDone)
            return false;
        Shown = new View(repair, found.Value);
        return true;
    }

    public sealed class ExposureInput
    {
        public int Number { get; set; }

        public string? Mark { get; set; }
    }

    public sealed record View(RepairHead Repair, RecordingView Recording);
}
