using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Banking;
using RepairShop.Services.Banking;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Banking;

/// <summary>One statement's lines, what each may pay, and the click that books those ticked.</summary>
public sealed class StatementModel(BankReadService reader, BankBookingService bookings, ShopFace face) : PageModel
{
    private const string RefusedKey = "BookingsRefused";

    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty(SupportsGet = true)]
    public LineShow Show { get; set; }

    [BindProperty(SupportsGet = true)]
    public int After { get; set; }

    public StatementView Shown { get; private set; } = null!;

    /// <summary>Why lines that were ticked are not booked.</summary>
    public IReadOnlyList<string> Refused { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        Refused = TempData[RefusedKey] as string[] ?? [];
        return await LoadAsync(ct) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostBookAsync(List<LineInput> lines, CancellationToken ct)
    {
        var ticked = lines.Where(line => line.Ticked).ToList();
        var typed = ticked.Select(line => BookingChoice.Read(line.Choice) is { } choice ? new TypedBooking(line.Id, choice, line.FormKey) : null).OfType<TypedBooking>().ToList();
        var open = ticked.Count - typed.Count;
        if (typed.Count == 0)
        {
            ModelState.AddModelError("", open > 0 ? Unchosen(open) : new NothingTicked().Message);
            return await LoadAsync(ct) ? await this.ShowAgain() : NotFound();
        }

        var outcomes = await bookings.BookAsync(typed, ct);
        var done = outcomes.Where(outcome => outcome.Refused is null).ToList();
        this.Tell(Summary(done.Count, done.Sum(outcome => outcome.Line!.Amount)));
        string[] refused = [.. outcomes.Where(outcome => outcome.Refused is not null).Select(Sentence), .. open > 0 ? [Unchosen(open)] : Array.Empty<string>()];
        TempData[RefusedKey] = refused;
        return RedirectToPage(new { Id, Show, After = After == 0 ? (int?)null : After });
    }

    private string Summary(int lines, decimal together) => lines switch
    {
        0 => "Nothing was booked.",
        1 => $"One line is booked, {face.Money(together)}.",
        _ => $"{lines} lines are booked, {face.Money(together)} together.",
    };

    private string Sentence(BookingOutcome outcome) => outcome.Line is { } line
        ? $"{face.Money(line.Amount, line.Currency)} of {face.Date(line.BookedOn)} is not booked. {outcome.Refused!.Message}"
        : outcome.Refused!.Message;

    private static string Unchosen(int count) =>
        $"{(count == 1 ? "One ticked line has" : $"{count} ticked lines have")} several things that fit: choose one of them, then tick and book again.";

    private async Task<bool> LoadAsync(CancellationToken ct)
    {
        var view = await reader.StatementAsync(Id, Show, After, ct);
        if (view.IsDone)
            Shown = view.Value;
        return view.IsDone;
    }

    public sealed class LineInput
    {
        public Guid Id { get; set; }

        public bool Ticked { get; set; }

        public string? Choice { get; set; }

        public Guid FormKey { get; set; }
    }
}

/// <summary>A line in the form, with its place in it.</summary>
public sealed record LineRow(int Index, BankLineView View);
