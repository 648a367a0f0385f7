using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Invoices;

/// <summary>What moves an invoice without money: the customer's credit, and giving up what is not to be had.</summary>
public sealed partial class RepairModel
{
    public WriteOffInput WriteOff { get; set; } = new();

    public async Task<IActionResult> OnPostUseCreditAsync(Guid invoice, decimal amount, Guid formKey, CancellationToken cancel) =>
        await MoneyAsync(await payments.PayAsync(invoice, OfCredit(amount, formKey), cancel), "The invoice is paid with the customer’s credit.", cancel);

    public async Task<IActionResult> OnPostKeepAsync(Guid invoice, decimal amount, Guid formKey, CancellationToken cancel) =>
        await MoneyAsync(await payments.RefundAsync(invoice, OfCredit(amount, formKey), cancel), "The money is kept as the customer’s credit.", cancel);

    /// <summary>A fresh draft of what was taken back as a whole.</summary>
    public async Task<IActionResult> OnPostReissueAsync(Guid invoice, CancellationToken cancel) => await PageResults.Answer(
        this, await reissues.BeginAsync(invoice, cancel), "The draft has the lines of the invoice that was taken back: put right what was wrong, then issue it.",
        _ => RedirectToPage(), () => LoadAsync(cancel));

    public async Task<IActionResult> OnPostWriteOffAsync([Bind(Prefix = "WriteOff")] WriteOffInput writeOff, CancellationToken cancel)
    {
        WriteOff = writeOff;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        var done = await writeOffs.WriteOffAsync(writeOff.Invoice, writeOff.Amount ?? 0, writeOff.Reason ?? "", writeOff.FormKey, cancel);
        if (done.Failure is not Invalid invalid)
            return await MoneyAsync(done, "It is written off. Should the customer pay after all, undo it first.", cancel);
        ModelState.AddModelError("WriteOff." + invalid.Field, invalid.Message);
        return await this.ShowAgain(() => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostUndoWriteOffAsync(Guid invoice, Guid writeOff, Guid formKey, CancellationToken cancel) =>
        await MoneyAsync(await writeOffs.UndoAsync(invoice, writeOff, formKey, cancel), "The write-off is undone by a counter-entry: the invoice is owed again.", cancel);

    private TypedPayment OfCredit(decimal amount, Guid formKey) => new(amount, PaymentMethod.CustomerCredit, "", face.Today, formKey);

    /// <param name="Invoice"></param>
    /// <param name="Typed">What was typed last, for this invoice or another.</param>
    public sealed record WriteOffForm(InvoiceView Invoice, WriteOffInput Typed)
    {
        public WriteOffInput WriteOff => Typed.Invoice == Invoice.Id ? Typed : new WriteOffInput { Invoice = Invoice.Id, Amount = Invoice.Balance };

        public bool IsTyped => Typed.Invoice == Invoice.Id;
    }

    public sealed class WriteOffInput
    {
        public Guid Invoice { get; set; }

        public Guid FormKey { get; set; } = Guid.NewGuid();

        public decimal? Amount { get; set; }

        [StringLength(500)]
        public string? Reason { get; set; }
    }
}
