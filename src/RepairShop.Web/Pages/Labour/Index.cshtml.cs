using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Labour;
using RepairShop.Services.Labour;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Labour;

public sealed class IndexModel(WorkService work, LabourService labour, ClockService clock) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    /// <summary>A time came twice, so the form asks which one is meant.</summary>
    public bool AsksWhich { get; private set; }

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        Input = new InputModel { Day = Shown.Hours.Today, Once = Guid.CreateVersion7(), Billable = true };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var kept = await labour.AddAsync(Shown.Repair.Id, Input.Typed(), Input.Once, ct);
        AsksWhich = kept.Failure is TimeHappenedTwice;
        return await this.Answer(kept, null, done => Told($"{LengthText.Write(done.Minutes)} added. {done.Told}", number));
    }

    public async Task<IActionResult> OnPostStartAsync(string number, string? activity, string? back, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        ModelState.Clear();
        var started = await clock.StartAsync(Shown.Repair.Id, Short(activity), billable: true, ct);
        return await this.Answer(started, null, done => Told(
            done.StoppedOn is null
                ? "The clock is running."
                : $"The clock is running here. It was stopped on repair {done.StoppedOn} after {LengthText.Write(done.StoppedMinutes)}.",
            number, back));
    }

    public async Task<IActionResult> OnPostStopAsync(string number, string? back, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        ModelState.Clear();
        var stopped = await clock.StopAsync(ct);
        return await this.Answer(stopped, null, done => Told(
            $"The clock on repair {done.Number} is stopped: {LengthText.Write(done.Minutes)}.", number, back));
    }

    public async Task<IActionResult> OnPostStopAtAsync(string number, [Required] DateOnly? day, [Required] TimeOnly? time, WhichHour which, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (day is null || time is null)
            return await this.ShowAgain();
        ModelState.Clear();
        var stopped = await clock.StopAtAsync(day.Value, time.Value, which, ct);
        AsksWhich = stopped.Failure is TimeHappenedTwice;
        return await this.Answer(stopped, null, done => Told(
            $"The clock on repair {done.Number} is stopped: {LengthText.Write(done.Minutes)}.", number));
    }

    private RedirectToPageResult Told(string sentence, string number, string? back = null)
    {
        this.Tell(sentence.Trim());
        return back switch
        {
            "bench" => RedirectToPage("/Work/Bench", new { number }),
            "strip-down" => RedirectToPage("/StripDown/Bench", "", new { number }),
            _ => RedirectToPage(new { number }),
        };
    }

    private static string Short(string? activity) => (activity ?? "").Trim() is { Length: > 200 } text ? text[..200] : (activity ?? "").Trim();

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        Shown = new View(repair, await labour.ForRepairAsync(repair.Id, ct));
        return true;
    }

    public sealed class InputModel
    {
        public DateOnly Day { get; set; }

        public TimeOnly? From { get; set; }

        public TimeOnly? To { get; set; }

        [StringLength(40)]
        public string? Length { get; set; }

        public WhichHour Which { get; set; }

        [StringLength(200)]
        public string? Activity { get; set; }

        public bool Billable { get; set; }

        public Guid Once { get; set; }

        /// <summary>Of the entry that is corrected.</summary>
        public uint Version { get; set; }

        public LabourTyped Typed() => new(Day, From, To, Length, Which, Activity ?? "", Billable, Version);
    }

    public sealed record View(RepairHead Repair, HoursView Hours)
    {
        public bool RunsHere => Hours.Mine?.RepairId == Repair.Id;
    }
}
