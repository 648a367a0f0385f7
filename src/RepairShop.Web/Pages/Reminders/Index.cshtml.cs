using System.ComponentModel.DataAnnotations;
using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Reminders;
using RepairShop.Services.Reminders;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Reminders;

/// <summary>Who is late, and what is sent about it.</summary>
public sealed class IndexModel(ReminderListService list, ReminderSendService sender, ReminderHoldService holds, ShopFace face) : PageModel
{
    public ReminderDesk Desk { get; private set; } = new([], [], [], [], false);

    /// <summary>As the page sends them: what stays ticked when it is shown again.</summary>
    public IReadOnlyList<string> Ticked { get; private set; } = [];

    public Task OnGetAsync(CancellationToken cancel) => LoadAsync(cancel);

    /// <param name="ticked">Invoice and step in one, as the lines hold them.</param>
    /// <param name="one">Of the button beside one line; then what is ticked stays where it is.</param>
    /// <param name="cancel"></param>
    public async Task<IActionResult> OnPostSendAsync([MaxLength(300)] List<string> ticked, string? one, CancellationToken cancel)
    {
        Ticked = ticked;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        var sent = await sender.SendAsync([.. (one is null ? ticked : [one]).Select(Read).OfType<TickedReminder>()], cancel);
        return await this.Answer(sent, sent.IsDone ? Notice(sent.Value) : null, _ => RedirectToPage(), () => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostLiftAsync(Guid invoice, CancellationToken cancel) => await this.Answer(
        await holds.LiftAsync(invoice, cancel), "The hold is lifted: reminders may go out again.", () => RedirectToPage(), () => LoadAsync(cancel));

    public async Task<IActionResult> OnPostPostedAsync(Guid letter, CancellationToken cancel) => await this.Answer(
        await sender.PostedAsync(letter, cancel), "The letter is marked as posted.", () => RedirectToPage(), () => LoadAsync(cancel));

    /// <summary>Invoice and step in one field, so that a line sends what it shows.</summary>
    public static string TextOf(LateInvoice row) => TextOf(new TickedReminder(row.Id, row.Step));

    public static string TextOf(TickedReminder one) => string.Create(CultureInfo.InvariantCulture, $"{one.InvoiceId:N}_{one.Step}");

    public static string Times(int sent) => sent switch { 0 => "not yet", 1 => "once", 2 => "twice", _ => $"{sent} times" };

    /// <summary>When the next step is due, or why there is none.</summary>
    public string NextOf(LateInvoice row) => row.Why switch
    {
        ReminderNotYet wait => face.Date(wait.Day),
        RemindedToday => "sent today",
        RemindersUsedUp => "none is left: speak to the customer",
        CustomerHasMoneyHere money => $"holds {face.Money(money.Held, money.Currency)} here: use that first",
        _ => row.Why?.Message ?? "",
    };

    internal static string Notice(SentLetters sent) => (sent.ByMail, sent.ToPrint.Count) switch
    {
        (var mailed, 0) => mailed == 1 ? "The reminder goes out by e-mail." : $"{mailed} reminders go out by e-mail.",
        (0, var printed) => printed == 1 ? "The reminder is made: print it below and mark it as posted." : $"{printed} reminders are made: print them below and mark them as posted.",
        var (mailed, printed) => $"{mailed} by e-mail, {printed} to be printed: print below and mark as posted.",
    };

    internal static TickedReminder? Read(string text) =>
        text.Split('_') is [var id, var step] && Guid.TryParseExact(id, "N", out var invoice) && int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? new TickedReminder(invoice, number)
            : null;

    private async Task LoadAsync(CancellationToken cancel) => Desk = await list.DeskAsync(cancel);
}
