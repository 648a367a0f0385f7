using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Banking;
using RepairShop.Services.Invoices;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Banking;

/// <summary>One line of a statement: what it says, and everything that can be done with it.</summary>
public sealed class LineModel(
    BankReadService reader, BankBookingService bookings, BankTargetService targets, CustomerMoneyService moneys, ShopFace face) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    /// <summary>Chosen among those found.</summary>
    [BindProperty(SupportsGet = true)]
    public Guid? Customer { get; set; }

    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Q { get; set; }

    public InputModel Input { get; set; } = new();

    public AsideInput Aside { get; set; } = new();

    public BankLineView Shown { get; private set; } = null!;

    /// <summary>Null where nothing was looked for.</summary>
    public IReadOnlyList<BankTarget>? Targets { get; private set; }

    public CustomerMoney? Money { get; private set; }

    public IReadOnlyList<OwedView> Shareable => Money is null ? [] : [.. Money.Owed.Where(owed => owed.Currency == Shown.Line.Currency)];

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        if (!await LoadAsync(ct))
            return NotFound();
        Q = Q?.Replace("\0", "", StringComparison.Ordinal).Trim() is { Length: > 0 } typed ? typed[..Math.Min(typed.Length, 200)] : null;
        if (Shown.State == LineState.Waiting && Q is not null)
            Targets = await targets.FindAsync(Q, ct);
        var shares = ReceiptRules.Propose(Shown.Line.Amount, Shareable.Select(owed => new OwedInvoice(owed.Id, owed.Due, owed.Issued, owed.Number, owed.Owed)));
        Input.Shares = [.. Shareable.Select(owed => new ShareInput { Invoice = owed.Id, Amount = shares.FirstOrDefault(share => share.InvoiceId == owed.Id)?.Amount })];
        return Page();
    }

    public async Task<IActionResult> OnPostBookAsync(string? choice, Guid formKey, CancellationToken ct) =>
        await BookAsync(BookingChoice.Read(choice), formKey, ct);

    public async Task<IActionResult> OnPostShareAsync([Bind(Prefix = "Input")] InputModel input, CancellationToken ct)
    {
        Input = input;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => AgainAsync(ct));
        var choice = Customer is { } whose ? new BookingChoice(whose, [.. input.Shares.Select(share => new ReceiptShare(share.Invoice, share.Amount ?? 0))]) : null;
        return await BookAsync(choice, input.FormKey, ct);
    }

    public async Task<IActionResult> OnPostAsideAsync([Bind(Prefix = "Aside")] AsideInput aside, CancellationToken ct)
    {
        Aside = aside;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => AgainAsync(ct));
        var done = await bookings.SetAsideAsync(Id, aside.Reason ?? "", ct);
        if (done.Failure is Invalid empty)
        {
            ModelState.AddModelError("Aside." + empty.Field, empty.Message);
            return await this.ShowAgain(() => AgainAsync(ct));
        }

        return await DoneAsync(done, "The line is set aside.", ct);
    }

    public async Task<IActionResult> OnPostTakeUpAsync(CancellationToken ct) => await DoneAsync(await bookings.TakeUpAsync(Id, ct), "The line waits again.", ct);

    public async Task<IActionResult> OnPostUndoAsync(Guid receipt, Guid formKey, CancellationToken ct) =>
        await DoneAsync(await bookings.UndoAsync(Id, receipt, formKey, ct), "The booking is taken back; the line waits again.", ct);

    private async Task<IActionResult> BookAsync(BookingChoice? choice, Guid formKey, CancellationToken ct)
    {
        if (choice is null || !await LoadAsync(ct))
            return NotFound();
        var outcome = (await bookings.BookAsync([new TypedBooking(Id, choice, formKey)], ct))[0];
        var result = outcome.Refused is { } refused ? (Result)refused : Result.Done;
        return await this.Answer(result, $"{face.Money(Shown.Line.Amount, Shown.Line.Currency)} is booked.", () => RedirectToPage("Statement", new { Id = Shown.Line.StatementId }), () => AgainAsync(ct));
    }

    private Task<IActionResult> DoneAsync(Result result, string notice, CancellationToken ct) =>
        PageResults.Answer(this, result, notice, () => RedirectToPage(new { Id, Customer = (Guid?)null, q = (string?)null }), () => AgainAsync(ct));

    /// <summary>What was typed goes by invoice: somebody may have paid or issued one meanwhile.</summary>
    private async Task AgainAsync(CancellationToken ct)
    {
        if (!await LoadAsync(ct) || Input.Shares.Select(share => share.Invoice).SequenceEqual(Shareable.Select(owed => owed.Id)))
            return;
        var typed = Input.Shares;
        Input.Shares = [.. Shareable.Select(owed => new ShareInput { Invoice = owed.Id, Amount = typed.FirstOrDefault(share => share.Invoice == owed.Id)?.Amount })];
        foreach (var key in ModelState.Keys.Where(key => key.StartsWith("Input.Shares", StringComparison.Ordinal)).ToList())
            ModelState.Remove(key);
    }

    private async Task<bool> LoadAsync(CancellationToken ct)
    {
        var line = await reader.LineAsync(Id, ct);
        if (line.IsDone)
            Shown = line.Value;
        Money = line.IsDone && Customer is { } whose ? (await moneys.OfAsync(whose, ct)).Value : null;
        return line.IsDone;
    }

    public sealed class InputModel
    {
        public Guid FormKey { get; set; } = Guid.NewGuid();

        [MaxLength(500)]
        public List<ShareInput> Shares { get; set; } = [];
    }

    public sealed class ShareInput
    {
        public Guid Invoice { get; set; }

        [Display(Name = "Share")]
        public decimal? Amount { get; set; }
    }

    public sealed class AsideInput
    {
        [StringLength(500)]
        public string? Reason { get; set; }
    }
}
