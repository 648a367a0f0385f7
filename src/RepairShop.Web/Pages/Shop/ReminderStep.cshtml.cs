using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Post;
using RepairShop.Domain.Reminders;
using RepairShop.Services.Reminders;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

/// <summary>One step of reminders: its day, its words, its fee.</summary>
public sealed class ReminderStepModel(ReminderStepService steps) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int Number { get; set; }

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IReadOnlyList<string> Placeholders => MailTemplate.Known(MailKind.Reminder);

    public bool AsksFees { get; private set; }

    public string? Preview { get; private set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        await LoadAsync(ct);
        var step = await steps.FindAsync(Number, ct);
        if (step.Value is not { } kept)
            return NotFound();
        Input = InputModel.Of(kept);
        Preview = steps.Preview(kept).Value;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(ct));
        return await this.Answer(await steps.SaveAsync(Input.ToStep(Number), ct), "The step is saved.", () => RedirectToPage(new { Number }), async () =>
        {
            await LoadAsync(ct);
            Input.Version = (await steps.FindAsync(Number, ct)).Value?.Version ?? 0;
        });
    }

    /// <summary>Saves nothing.</summary>
    public async Task<IActionResult> OnPostPreviewAsync(CancellationToken ct)
    {
        await LoadAsync(ct);
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var preview = steps.Preview(Input.ToStep(Number));
        Preview = preview.Value;
        return await this.Answer(preview, null, _ => Page());
    }

    private async Task LoadAsync(CancellationToken ct) => AsksFees = (await steps.PlanAsync(ct)).AsksFees;

    public sealed class InputModel
    {
        [StringLength(60)]
        public string? Title { get; set; }

        [Display(Name = "Days after it was due"), Range(1, 3650)]
        public int DaysAfterDue { get; set; }

        [Display(Name = "Days to pay"), Range(0, 365)]
        public int DaysToPay { get; set; }

        public decimal? Fee { get; set; }

        [StringLength(8000)]
        public string? Text { get; set; }

        public uint Version { get; set; }

        internal static InputModel Of(ReminderStep step) => new()
        {
            Title = step.Title,
            DaysAfterDue = step.DaysAfterDue,
            DaysToPay = step.DaysToPay,
            Fee = step.Fee,
            Text = step.Text,
            Version = step.Version,
        };

        internal ReminderStep ToStep(int number) => new()
        {
            Number = number,
            Title = Title ?? "",
            DaysAfterDue = DaysAfterDue,
            DaysToPay = DaysToPay,
            Fee = Fee ?? 0,
            Text = Text ?? "",
            Version = Version,
        };
    }
}
