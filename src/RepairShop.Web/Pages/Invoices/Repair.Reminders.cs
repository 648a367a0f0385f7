using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Reminders;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Invoices;

/// <summary>What was sent about an invoice that is late, and keeping more of it back.</summary>
public sealed partial class RepairModel
{
    public HoldInput Hold { get; set; } = new();

    public IReadOnlyDictionary<Guid, InvoiceReminders> Reminders { get; private set; } = new Dictionary<Guid, InvoiceReminders>();

    public async Task<IActionResult> OnPostHoldAsync([Bind(Prefix = "Hold")] HoldInput hold, CancellationToken cancel)
    {
        Hold = hold;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        var done = await holds.HoldAsync(hold.Invoice, hold.Until, hold.Reason ?? "", cancel);
        if (done.Failure is not Invalid invalid)
            return await MoneyAsync(done, "No reminder goes out before that day.", cancel);
        ModelState.AddModelError("Hold." + invalid.Field, invalid.Message);
        return await this.ShowAgain(() => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostLiftHoldAsync(Guid invoice, CancellationToken cancel) =>
        await MoneyAsync(await holds.LiftAsync(invoice, cancel), "The hold is lifted: reminders may go out again.", cancel);

    /// <param name="Invoice"></param>
    /// <param name="Kept"></param>
    /// <param name="Typed">What was typed last, for this invoice or another.</param>
    public sealed record ReminderForm(InvoiceView Invoice, InvoiceReminders Kept, HoldInput Typed)
    {
        public HoldInput Hold => IsTyped ? Typed : new HoldInput { Invoice = Invoice.Id };

        public bool IsTyped => Typed.Invoice == Invoice.Id;
    }

    public sealed class HoldInput
    {
        public Guid Invoice { get; set; }

        [Display(Name = "No reminder before")]
        public DateOnly? Until { get; set; }

        [StringLength(500)]
        public string? Reason { get; set; }
    }
}
