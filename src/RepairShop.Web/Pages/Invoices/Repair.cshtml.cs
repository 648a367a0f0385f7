using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Reminders;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Invoices;

/// <summary>The money of one repair: draft, issue, payments, credit.</summary>
public sealed partial class RepairModel(
    InvoiceReadService reader, InvoiceService drafts, InvoiceIssueService issuer, PaymentService payments, WriteOffService writeOffs,
    ReissueService reissues, ReminderListService reminders, ReminderHoldService holds, ShopFace face) : PageModel
{
    public static IReadOnlyList<SelectListItem> Methods { get; } =
        [.. Enum.GetValues<PaymentMethod>().Where(method => method != PaymentMethod.CustomerCredit).Select(method => new SelectListItem(Words.Of(method), method.ToString()))];

    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    public InputModel Input { get; set; } = new();

    public PaymentInput Payment { get; set; } = new();

    public CreditInput Credit { get; set; } = new();

    public decimal? Deposit { get; set; }

    public View Shown { get; private set; } = null!;

    /// <summary>The newest paper comes first.</summary>
    public string? Latest => Shown.Money.Issued.Count > 0 ? Shown.Money.Issued[^1].Number : null;

    /// <summary>A form may name only an invoice of the repair at whose address it is sent.</summary>
    public override async Task OnPageHandlerExecutionAsync(PageHandlerExecutingContext context, PageHandlerExecutionDelegate next)
    {
        if (context.HandlerArguments.Select(Named).FirstOrDefault(id => id is not null) is { } id
            && await reader.IsElsewhereAsync(Number, id, HttpContext.RequestAborted))
            context.Result = NotFound();
        else
            await next();
    }

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        if (!await LoadAsync(cancel))
            return NotFound();
        return Page();
    }

    public async Task<IActionResult> OnPostBeginAsync(InvoiceBasis basis, CancellationToken cancel) => await PageResults.Answer(
        this, await drafts.BeginAsync(Number, basis, cancel), null, _ => RedirectToPage(), () => LoadAsync(cancel));

    public async Task<IActionResult> OnPostDepositAsync(decimal? deposit, CancellationToken cancel)
    {
        Deposit = deposit;
        return ModelState.IsValid
            ? await PageResults.Answer(this, await drafts.BeginDepositAsync(Number, deposit ?? 0, cancel), null, _ => RedirectToPage(), () => LoadAsync(cancel))
            : await this.ShowAgain(() => LoadAsync(cancel));
    }

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
        return await KeepAsync(input, op, cancel);
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
        var done = await issuer.CreditAsync(credit.Invoice, credit.Request(), credit.Reason ?? "", credit.CreditByMail, cancel);
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

    private static Guid? Named(KeyValuePair<string, object?> argument) => argument switch
    {
        { Value: InputModel input } => input.Id,
        { Value: PaymentInput payment } => payment.Invoice,
        { Value: CreditInput credit } => credit.Invoice,
        { Value: WriteOffInput writeOff } => writeOff.Invoice,
        { Value: HoldInput hold } => hold.Invoice,
        { Key: "invoice", Value: Guid id } => id,
        _ => null,
    };

    /// <summary>Saves the draft, and issues it when that was asked for and its totals are the ones that were seen.</summary>
    private async Task<IActionResult> KeepAsync(InputModel input, string op, CancellationToken cancel)
    {
        var kept = await drafts.SaveDraftAsync(input.Id, input.ToDraft(), input.Version, cancel);
        if (kept.Failure is InvoiceAlreadyIssued)
            return RedirectToPage(); // the second of two clicks, or an old tab: show what is
        if (!kept.IsDone || op != "issue")
            return await PageResults.Answer(this, kept, "The draft is kept.", () => RedirectToPage(), () => AgainAsync(kept.Failure, cancel));
        if (input.TaxProfileId != input.ProfileShown)
            return await PageResults.Answer(
                this, kept, "The tax has changed with the profile, and nothing is issued yet: look at the totals, then issue it.", () => RedirectToPage());
        return await IssueAsync(input, cancel);
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
        Reminders = await reminders.OfRepairAsync(Number, cancel);
        if (sheet.Draft is { } draft)
        {
            if (Input.Id != draft.Id)
                Input = InputModel.From(draft, sheet.CustomerEmail.Length > 0);
            LineMoves.AddSpare(Input.Lines, draft.Taxes);
            Input.Changes.RemoveAll(change => change.IsBlank);
            Input.Changes.Add(new ChangeInput());
        }
        Shown = new View(sheet, sheet.Draft is { } shown
            ? new LinesView(Input.Lines, shown.Taxes, sheet.Currency, shown.PricesIncludeTax, HasRange: false)
            : null, sheet.Draft is { } taxed ? ProfilesOf(taxed) : []);
        return true;
    }

    /// <summary>With what the draft has now, even if it is retired or comes from the plain settings.</summary>
    private static List<SelectListItem> ProfilesOf(InvoiceForm draft)
    {
        var items = draft.Profiles.Select(profile => new SelectListItem(profile.Name, profile.Id.ToString())).ToList();
        if (items.Count > 0 && draft.Draft.TaxProfileId is null)
            items.Insert(0, new SelectListItem("As in Prices and tax", ""));
        else if (items.Count > 0 && items.All(item => item.Value != draft.Draft.TaxProfileId.ToString()))
            items.Insert(0, new SelectListItem("A retired profile", draft.Draft.TaxProfileId.ToString()));
        return items;
    }

    public sealed record View(MoneySheet Money, LinesView? Lines, IReadOnlyList<SelectListItem> Profiles);

    /// <param name="IsTyped">The form was sent and is shown again.</param>
    public sealed record CreditView(InvoiceView Invoice, bool HasMail, bool IsTyped);

    public sealed class InputModel
    {
        public Guid Id { get; set; }

        public uint Version { get; set; }

        [Display(Name = "Work done on")]
        public DateOnly SupplyDate { get; set; }

        [Display(Name = "Note"), StringLength(4000)]
        public string? InvoiceNote { get; set; }

        public bool ByMail { get; set; }

        public Guid? TaxProfileId { get; set; }

        /// <summary>The profile the form was drawn with: after another is chosen the totals are looked at before anything is issued.</summary>
        public Guid? ProfileShown { get; set; }

        public bool RoundsToCoin { get; set; }

        [MaxLength(200)]
        public List<LineInput> Lines { get; set; } = [];

        [MaxLength(50)]
        public List<ChangeInput> Changes { get; set; } = [];

        public static InputModel From(InvoiceForm form, bool byMail) => new()
        {
            Id = form.Id,
            Version = form.Version,
            SupplyDate = form.Draft.SupplyDate,
            InvoiceNote = form.Draft.Note,
            ByMail = byMail,
            TaxProfileId = form.Draft.TaxProfileId,
            ProfileShown = form.Draft.TaxProfileId,
            RoundsToCoin = form.Draft.RoundsToCoin,
            Changes = [.. form.Draft.Changes.Select(change => new ChangeInput { Text = change.Text, Change = ChangeText.Of(change.Change) })],
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
            TaxProfileId = TaxProfileId,
            RoundsToCoin = RoundsToCoin,
            Changes = [.. Changes.Where(change => !change.IsBlank).Select(change => new PaperChange(change.Text ?? "", ChangeText.Read(change.Change).Change))],
            Lines = [.. Lines.Where(line => !line.IsBlank).Select(line => line.ToLine())],
        };
    }

    public sealed class ChangeInput
    {
        [StringLength(200)]
        public string? Text { get; set; }

        [StringLength(20), ChangeText]
        public string? Change { get; set; }

        public bool IsBlank => string.IsNullOrWhiteSpace(Text) && string.IsNullOrWhiteSpace(Change);
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

        [MaxLength(500)]
        public List<CreditLineInput> Lines { get; set; } = [];

        [MaxLength(50)]
        public List<CreditAmountInput> Amounts { get; set; } = [];

        /// <summary>What was filled in; nothing at all means everything that is left.</summary>
        public CreditRequest Request() => new(
            [.. Lines.Where(line => line.Quantity is not null).Select(line => new CreditedLine(line.Line, line.Quantity!.Value))],
            [.. Amounts.Where(part => part.Amount is not null).Select(part => new CreditedAmount(new TaxKey(part.Category, part.Name ?? "", part.Percent), part.Amount!.Value))]);
    }

    public sealed class CreditLineInput
    {
        public Guid Line { get; set; }

        public decimal? Quantity { get; set; }
    }

    public sealed class CreditAmountInput
    {
        public TaxCategory Category { get; set; }

        public string? Name { get; set; }

        public decimal Percent { get; set; }

        public decimal? Amount { get; set; }
    }
}
