using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.ShutterTests;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Work;

namespace RepairShop.Web.Pages.ShutterTests;

public sealed class IndexModel(WorkService work, ShutterTestService tests, RecordingReadService recordings) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    /// <summary>The rows with figures, stored and typed together.</summary>
    public FiguresView Figures { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, string phase, Guid? testId, bool fresh, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, testId, fresh, ct))
            return NotFound();
        Input = InputModel.Of(Shown.Form);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, string phase, Guid? testId, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, testId ?? Input.TestId, fresh: Input.TestId is null, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await tests.SaveAsync(Shown.Repair.Id, Shown.Phase, Input.TestId, Input.Typed(), ct);
        if (saved.Failure is ReadingsRefused or ChangedMeanwhile)
            await WorkedOutAsync(ct);
        if (saved.Failure is ChangedMeanwhile)
        {
            ModelState.Remove("Input.Version");
            Input.Version = Shown.Form.Head.Version;
        }

        return await this.Answer(saved, "Readings saved.", id => RedirectToPage(new { number, phase, testId = id }));
    }

    /// <summary>"Work out": the same page with figures of what is typed; a script asks for the table alone while typing.</summary>
    public async Task<IActionResult> OnPostWorkOutAsync(string number, string phase, Guid? testId, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, testId ?? Input.TestId, fresh: Input.TestId is null, ct))
            return NotFound();
        await WorkedOutAsync(ct);
        return Request.Headers.XRequestedWith == "fetch" ? Partial("_Figures", Figures) : Page();
    }

    public async Task<IActionResult> OnPostStrikeOutAsync(string number, string phase, Guid? testId, Guid reading, string? reason, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, testId, fresh: false, ct))
            return NotFound();
        ModelState.Clear();
        Input = InputModel.Of(Shown.Form);
        return await this.Answer(
            await tests.StrikeOutAsync(Shown.Repair.Id, reading, reason, ct), "Struck out. It stays here with your reason.",
            () => RedirectToPage(new { number, phase, testId }));
    }

    public async Task<IActionResult> OnPostCountAgainAsync(string number, string phase, Guid? testId, Guid reading, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, testId, fresh: false, ct))
            return NotFound();
        ModelState.Clear();
        Input = InputModel.Of(Shown.Form);
        return await this.Answer(
            await tests.CountAgainAsync(Shown.Repair.Id, reading, ct), "It counts again.", () => RedirectToPage(new { number, phase, testId }));
    }

    public async Task<IActionResult> OnPostMarksAsync(string number, string phase, string? series, string? marks, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, null, fresh: false, ct))
            return NotFound();
        ModelState.Clear();
        Input = InputModel.Of(Shown.Form);
        return await this.Answer(
            await tests.SetMarksAsync(Shown.Repair.Id, series, marks, ct), "Marked speeds saved.", () => RedirectToPage(new { number, phase }));
    }

    /// <summary>Figures of stored and typed readings, and a sentence at every text that can't be read.</summary>
    private async Task WorkedOutAsync(CancellationToken ct)
    {
        var preview = await tests.WorkOutAsync(Shown.Repair.Id, Shown.Phase, Input.TestId, Input.Typed(), ct);
        foreach (var refused in preview.Refused)
            ModelState.AddModelError("Input." + refused.Field, refused.Sentence);
        Figures = new FiguresView(Shown.Phase, preview.Rows, preview.Refused);
    }

    private async Task<bool> LoadAsync(string number, string phase, Guid? testId, bool fresh, CancellationToken ct)
    {
        if (Phases.Read(phase) is not { } read || await work.FindAsync(number, ct) is not { } repair)
            return false;
        var form = await tests.FormAsync(repair.Id, read, testId, fresh, ct);
        if (!form.IsDone)
            return false;
        Shown = new View(
            repair, read, form.Value, await tests.BeforeAndAfterAsync(repair.Id, ct), await recordings.ListAsync(repair.Id, read, ct));
        Figures = new FiguresView(read, form.Value.Rows, []);
        return true;
    }

    public sealed class InputModel
    {
        public Guid? TestId { get; set; }

        [StringLength(200)]
        public string? Instrument { get; set; }

        public double? ResolutionMilliseconds { get; set; }

        public double? RoomTemperature { get; set; }

        [StringLength(2000)]
        public string? Note { get; set; }

        public uint Version { get; set; }

        public Guid Once { get; set; }

        public List<SpeedInput> Speeds { get; set; } = [];

        public ShutterTyped Typed() => new(
            Instrument ?? "", ResolutionMilliseconds, RoomTemperature, Note ?? "",
            [.. Speeds.Select(speed => new SpeedTyped(speed.Mark, speed.Text ?? ""))], Version, Once);

        public static InputModel Of(ShutterForm form) => new()
        {
            TestId = form.TestId,
            Instrument = form.Head.Instrument,
            ResolutionMilliseconds = form.Head.ResolutionMilliseconds,
            RoomTemperature = form.Head.RoomTemperature,
            Note = form.Head.Note,
            Version = form.Head.Version,
            Once = form.Head.Once,
            Speeds = [.. form.Rows.Where(row => row.HasTime).Select(row => new SpeedInput { Mark = row.Mark })],
        };
    }

    public sealed class SpeedInput
    {
        [StringLength(40)]
        public string Mark { get; set; } = "";

        public string? Text { get; set; }
    }

    public sealed record View(RepairHead Repair, Phase Phase, ShutterForm Form, BeforeAndAfter Both, IReadOnlyList<RecordingLine> Recordings);
}
