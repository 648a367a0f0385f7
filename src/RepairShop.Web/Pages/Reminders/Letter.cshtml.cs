using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Reminders;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Reminders;

/// <summary>One customer's letter as it would go out now.</summary>
public sealed class LetterModel(ReminderSendService sender) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Customer { get; set; }

    [BindProperty(SupportsGet = true), StringLength(3)]
    public string Currency { get; set; } = "";

    public ReminderPreview? Shown { get; private set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        if (!ModelState.IsValid)
            return NotFound();
        var preview = await sender.PreviewAsync(Customer, Currency, cancel);
        Shown = preview.Value;
        return await this.Answer(preview, null, _ => Page());
    }

    public async Task<IActionResult> OnPostAsync([MaxLength(300)] List<string> ticked, CancellationToken cancel)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        var sent = await sender.SendAsync([.. ticked.Select(IndexModel.Read).OfType<TickedReminder>()], cancel);
        return await this.Answer(sent, sent.IsDone ? IndexModel.Notice(sent.Value) : null, _ => RedirectToPage("Index"), () => LoadAsync(cancel));
    }

    private async Task LoadAsync(CancellationToken cancel) => Shown = (await sender.PreviewAsync(Customer, Currency, cancel)).Value;
}
