using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Invoices;

/// <summary>The money of one repair: draft, issue, payments, credit.</summary>
public sealed class RepairModel(
    InvoiceReadService reader, InvoiceService drafts, InvoiceIssueService issuer, PaymentService payments, ShopFace face) : PageModel
{
    public static IReadOnlyList<SelectListItem> Methods { get; } =
        [.. Enum.GetValues<PaymentMethod>().Select(method => new SelectListItem(Words.Of(method), method.ToString()))];

    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    public InputModel Input { get; set; } = new();

    public PaymentInput Payment { get; set; } = new();

    public CreditInput Credit { get; set; } = new();

    public View Shown { get; private set; } = null!;

    /// <summary>The newest paper comes first.</summary>
    public string? Latest => Shown.Money.Issued.Count > 0 ? Shown.Money.Issued[^1].Number : null;

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        if (!await LoadAsync(cancel))
            return NotFound();
        return Page();
    }

    public async Task<IActionResult> OnPostBeginAsync(InvoiceBasis basis, CancellationToken cancel) => await PageResults.Answer(
        this, await drafts.BeginAsync(Number, basis, cancel), null, _ => RedirectToPage(), () => LoadAsync(cancel));

    public async Task<IActionResult> OnPostDraftAsync([Bind(Prefix = "Input")] InputModel input, string op, CancellationToken cancel)
    {
        Input = input;
        if (op == "discard")
            return await PageResults.Answer(
                this, await drafts.DiscardDraftAsync(input.Id, cancel), "The draft is thrown away.", () => RedirectToPage(), () => LoadAsync(cancel));
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        if (LineMoves.Apply(input.Lines, op))
        {
            ModelState.Clear();
            await LoadAsync(cancel);
            return Page();
        }
        var kept = await drafts.SaveDraftAsync(input.Id, input.ToDraft(), input.Version, cancel);
        if (kept.Failure is InvoiceAlreadyIssued)
            return RedirectToPage(); // the second of two clicks, or an old tab: show what is
        if (!kept.IsDone || op != "issue")
            return await PageResults.Answer(this, kept, "The draft is kept.", () => RedirectToPage(), () => AgainAsync(kept.Failure, cancel));
        return await IssueAsync(input, cancel);
    }

    public async Task<IActionResult> OnPostPayAsync([Bind(Prefix = "Payment")] PaymentInput payment, CancellationToken cancel)
    {
        Payment = payment;
        return ModelState.IsValid
            ? await MoneyAsync(await payments.PayAsync(payment.Invoice, payment.Typed(), cancel), "The payment is recorded.", cancel)
            : await this.ShowAgain(() => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostRefundAsync([Bind(Prefix = "Payment")] PaymentInput payment, CancellationToken cancel)
    {
        Payment = payment;
        return ModelState.IsValid
            ? await MoneyAsync(await payments.RefundAsync(payment.Invoice, payment.Typed(), cancel), "The money given back is recorded.", cancel)
            : await this.ShowAgain(() => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostTakeBackAsync(Guid invoice, Guid payment, Guid formKey, CancellationToken cancel) =>
        await MoneyAsync(await payments.TakeBackAsync(invoice, payment, formKey, cancel), "The payment is taken back by a counter-entry.", cancel);

    public async Task<IActionResult> OnPostCreditAsync([Bind(Prefix = "Credit")] CreditInput credit, CancellationToken cancel)
    {
        Credit = credit;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        var done = await issuer.CreditAsync(credit.Invoice, credit.Reason ?? "", credit.CreditByMail, cancel);
        return await PageResults.Answer(
            this, done, done.IsDone ? PaperNotice.Of(done.Value, "is issued") : null, _ => RedirectToPage(), () => LoadAsync(cancel));
    }

    /// <summary>What a payment form starts with: the rest, today.</summary>
    public void Suggest(InvoiceView invoice)
    {
        if (Payment.Invoice == invoice.Id)
            return; // typed, and shown again
        Payment = new PaymentInput { Invoice = invoice.Id, Amount = Math.Abs(invoice.Balance), PaidOn = face.Today };
    }

    private async Task<IActionResult> IssueAsync(InputModel input, CancellationToken cancel)
    {
        var issued = await issuer.IssueAsync(input.Id, input.ByMail, cancel);
        if (issued.Failure is InvoiceAlreadyIssued)
            return RedirectToPage();
        return await PageResults.Answer(
            this, issued, issued.IsDone ? PaperNotice.Of(issued.Value, input.ByMail ? "is issued and goes out by e-mail" : "is issued") : null,
            _ => RedirectToPage(), () => AgainAsync(null, cancel, keptMeanwhile: true));
    }

    private Task<IActionResult> MoneyAsync(Result result, string notice, CancellationToken cancel) =>
        PageResults.Answer(this, result, notice, () => RedirectToPage(), () => LoadAsync(cancel));

    private async Task AgainAsync(Failure? failure, CancellationToken cancel, bool keptMeanwhile = false)
    {
        await LoadAsync(cancel);
        if ((keptMeanwhile || failure is ChangedMeanwhile) && Shown.Money.Draft is { } draft)
        {
            Input.Version = draft.Version;
            ModelState.Remove("Input.Version");
        }
    }

    private async Task<bool> LoadAsync(CancellationToken cancel)
    {
        var money = await reader.SheetAsync(Number, cancel);
        if (money.Value is not { } sheet)
            return false;
        if (sheet.Draft is { } draft)
        {
            if (Input.Id != draft.Id)
                Input = InputModel.From(draft, sheet.CustomerEmail.Length > 0);
            LineMoves.AddSpare(Input.Lines, draft.Taxes);
        }
        Shown = new View(sheet, sheet.Draft is { } shown
            ? new LinesView(Input.Lines, shown.Taxes, sheet.Currency, shown.PricesIncludeTax, HasRange: false)
            : null);
        return true;
    }

    public sealed record View(MoneySheet Money, LinesView? Lines);

    public sealed class InputModel
    {
        public Guid Id { get; set; }

        public uint Version { get; set; }

        [Display(Name = "Work done on")]
        public DateOnly SupplyDate { get; set; }

        [Display(Name = "Note"), StringLength(4000)]
        public string? InvoiceNote { get; set; }

        public bool ByMail { get; set; }

        [MaxLength(200)]
        public List<LineInput> Lines { get; set; } = [];

        public static InputModel From(InvoiceForm form, bool byMail) => new()
        {
            Id = form.Id,
            Version = form.Version,
            SupplyDate = form.Draft.SupplyDate,
            InvoiceNote = form.Draft.Note,
            ByMail = byMail,
            Lines = [.. form.Draft.Lines.Select(line =>
            {
                var input = LineInput.Of(line);
                input.LowQuantity = null;
                return input;
            })],
        };

        public InvoiceDraft ToDraft() => new()
        {
            Note = InvoiceNote ?? "",
            SupplyDate = SupplyDate,
            Lines = [.. Lines.Where(line => !line.IsBlank).Select(line => line.ToLine())],
        };
    }

    public sealed class PaymentInput
    {
        public Guid Invoice { get; set; }

        public Guid FormKey { get; set; }

        public decimal Amount { get; set; }

        public PaymentMethod Method { get; set; } = PaymentMethod.Card;

        [Display(Name = "On")]
        public DateOnly PaidOn { get; set; }

        [StringLength(200)]
        public string? Reference { get; set; }

        public TypedPayment Typed() => new(Amount, Method, Reference ?? "", PaidOn, FormKey);
    }

    public sealed class CreditInput
    {
        public Guid Invoice { get; set; }

        [StringLength(2000)]
        public string? Reason { get; set; }

        public bool CreditByMail { get; set; }
    }
}
