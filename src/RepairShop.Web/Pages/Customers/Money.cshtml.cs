using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Reminders;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Customers;

/// <summary>What a customer owes and has: money for several invoices at once, credit, and taking mistakes back.</summary>
public sealed partial class MoneyModel(CustomerMoneyService reader, ReceiptService receipts, ReminderFeeService fees, ShopFace face) : PageModel
{
    public static IReadOnlyList<SelectListItem> Methods { get; } =
        [.. Enum.GetValues<PaymentMethod>().Where(method => method != PaymentMethod.CustomerCredit).Select(method => new SelectListItem(Words.Of(method), method.ToString()))];

    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    public InputModel Input { get; set; } = new();

    public BackInput Back { get; set; } = new();

    public CustomerMoney Shown { get; private set; } = null!;

    /// <summary>In the shop's currency: what money received now can be shared out over.</summary>
    public IReadOnlyList<OwedView> Shareable => [.. Shown.Owed.Where(owed => owed.Currency == face.Currency)];

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        if (!await LoadAsync(cancel))
            return NotFound();
        Input = new InputModel { Amount = Shareable.Count > 0 ? Shareable.Sum(owed => owed.Owed) : null, PaidOn = face.Today, KeepsRest = Shareable.Count == 0 };
        ShareOut();
        return Page();
    }

    public async Task<IActionResult> OnPostReceiveAsync([Bind(Prefix = "Input")] InputModel input, string op, CancellationToken cancel)
    {
        Input = input;
        if (op == "share" && await LoadAsync(cancel))
            return await SharedOutAsync(cancel);
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => AgainAsync(cancel));
        var typed = input.Typed();
        var rest = typed.Amount - typed.Shares.Sum(share => share.Amount);
        return await PageResults.Answer(
            this, await receipts.ReceiveAsync(Id, typed, cancel),
            rest > 0 ? $"The money is recorded; {face.Money(rest)} are kept as credit." : "The money is recorded.", _ => RedirectToPage(), () => AgainAsync(cancel));
    }

    public async Task<IActionResult> OnPostTakeBackAsync(Guid receipt, Guid formKey, CancellationToken cancel) => await DoneAsync(
        await receipts.TakeBackAsync(Id, receipt, formKey, cancel), "The receipt is taken back by a counter-entry, on every invoice it paid.", cancel);

    public async Task<IActionResult> OnPostUndoAsync(Guid credit, Guid formKey, CancellationToken cancel) => await DoneAsync(
        await receipts.UndoAsync(Id, credit, formKey, cancel), "It is taken back by a counter-entry.", cancel);

    public async Task<IActionResult> OnPostPayBackAsync([Bind(Prefix = "Back")] BackInput back, CancellationToken cancel)
    {
        Back = back;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => AgainAsync(cancel));
        var done = await receipts.PayBackAsync(Id, back.Currency ?? "", new TypedPayment(back.Amount ?? 0, back.Method, back.Reference ?? "", back.PaidOn, back.FormKey), cancel);
        if (done.Failure is Invalid invalid)
        {
            ModelState.AddModelError("Back." + invalid.Field, invalid.Message);
            return await this.ShowAgain(() => AgainAsync(cancel));
        }
        return await DoneAsync(done, "The money given back is recorded.", cancel);
    }

    /// <summary>What the form for giving credit back starts with.</summary>
    public void SuggestBack(CreditBalance credit)
    {
        if (Back.Currency != credit.Currency)
            Back = new BackInput { Currency = credit.Currency, Amount = credit.Amount, PaidOn = face.Today };
    }

    private Task<IActionResult> DoneAsync(Result result, string notice, CancellationToken cancel) =>
        PageResults.Answer(this, result, notice, () => RedirectToPage(), () => AgainAsync(cancel));

    /// <summary>The form again, with the amount shared out.</summary>
    private async Task<IActionResult> SharedOutAsync(CancellationToken cancel)
    {
        if (Input.Amount is not > 0)
            return await this.ShowAgain(() => AgainAsync(cancel));
        ModelState.Clear();
        ShareOut();
        return Page();
    }

    /// <summary>Oldest first.</summary>
    private void ShareOut()
    {
        var shares = ReceiptRules.Propose(
            Input.Amount ?? 0, Shareable.Select(owed => new OwedInvoice(owed.Id, owed.Due, owed.Issued, owed.Number, owed.Owed)));
        Input.Shares = [.. Shareable.Select(owed => new ShareInput { Invoice = owed.Id, Amount = shares.FirstOrDefault(share => share.InvoiceId == owed.Id)?.Amount })];
    }

    private async Task AgainAsync(CancellationToken cancel)
    {
        if (!await LoadAsync(cancel))
            return;
        if (Input.PaidOn == default)
            Input.PaidOn = face.Today;
        var typed = Input.Shares;
        if (typed.Select(share => share.Invoice).SequenceEqual(Shareable.Select(owed => owed.Id)))
            return;
        // Somebody else paid or issued one meanwhile: the rows are others, so what was typed goes by invoice.
        Input.Shares = [.. Shareable.Select(owed => new ShareInput { Invoice = owed.Id, Amount = typed.FirstOrDefault(share => share.Invoice == owed.Id)?.Amount })];
        foreach (var key in ModelState.Keys.Where(key => key.StartsWith("Input.Shares", StringComparison.Ordinal)).ToList())
            ModelState.Remove(key);
    }

    private async Task<bool> LoadAsync(CancellationToken cancel)
    {
        var money = await reader.OfAsync(Id, cancel);
        if (money.IsDone)
            (Shown, Fees) = (money.Value, await fees.OfAsync(Id, cancel));
        return money.IsDone;
    }

    public sealed class InputModel
    {
        public Guid FormKey { get; set; } = Guid.NewGuid();

        public decimal? Amount { get; set; }

        public PaymentMethod Method { get; set; } = PaymentMethod.BankTransfer;

        [Display(Name = "On")]
        public DateOnly PaidOn { get; set; }

        [StringLength(200)]
        public string? Reference { get; set; }

        public bool KeepsRest { get; set; }

        [MaxLength(500)]
        public List<ShareInput> Shares { get; set; } = [];

        public TypedReceipt Typed() => new(
            Amount ?? 0, Method, Reference ?? "", PaidOn, [.. Shares.Select(share => new ReceiptShare(share.Invoice, share.Amount ?? 0))], KeepsRest, FormKey);
    }

    public sealed class ShareInput
    {
        public Guid Invoice { get; set; }

        [Display(Name = "Share")]
        public decimal? Amount { get; set; }
    }

    public sealed class BackInput
    {
        [StringLength(3)]
        public string? Currency { get; set; }

        public Guid FormKey { get; set; } = Guid.NewGuid();

        public decimal? Amount { get; set; }

        public PaymentMethod Method { get; set; } = PaymentMethod.BankTransfer;

        [Display(Name = "On")]
        public DateOnly PaidOn { get; set; }

        [StringLength(200)]
        public string? Reference { get; set; }
    }
}
