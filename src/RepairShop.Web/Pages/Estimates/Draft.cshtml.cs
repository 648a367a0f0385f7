using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Results;
using RepairShop.Services.Estimates;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Estimates;

/// <summary>A draft of an estimate: lines are added, moved and removed by posting the whole form, so that it needs no script.</summary>
public sealed class DraftModel(EstimateService estimates, EstimateSendService sender, ShopFace face) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        var form = await estimates.FormAsync(Number, cancel);
        if (!form.IsDone)
            return this.Note(form.Failure) ?? NotFound();
        Input.From(form.Value);
        await LoadAsync(cancel);
        Input.ByMail = Shown.Email.Length > 0;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string op, CancellationToken cancel)
    {
        if (op == "discard")
            return await this.Answer(await estimates.DiscardDraftAsync(Number, cancel), "The draft is thrown away.", () => Redirect(SheetUrl));
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        if (op == "part" || LineMoves.Apply(Input.Lines, op))
            return await MovedAsync(op, cancel);
        var kept = await estimates.SaveDraftAsync(Number, Input.ToDraft(), Input.Version, cancel, toSend: op == "send");
        if (!kept.IsDone || op != "send")
            return await this.Answer(kept, "The draft is kept.", _ => RedirectToPage(), () => LoadAsync(cancel, kept.Failure is ChangedMeanwhile));
        return await SendAsync(kept.Value, cancel);
    }

    private string SheetUrl => $"~/repairs/{Uri.EscapeDataString(Number)}";

    private async Task<IActionResult> SendAsync(int revision, CancellationToken cancel)
    {
        var sent = await sender.SendAsync(Number, Input.ByMail, cancel);
        return await this.Answer(
            sent, sent.IsDone ? PaperNotice.Of(sent.Value, Input.ByMail ? "goes out by e-mail" : "is ready to print") : null,
            _ => RedirectToPage("Revision", new { Number, revision }), () => LoadAsync(cancel, freshVersion: true));
    }

    private async Task<IActionResult> MovedAsync(string op, CancellationToken cancel)
    {
        var form = await estimates.FormAsync(Number, cancel);
        if (op == "part" && form.Value?.Parts.FirstOrDefault(part => part.Id == Input.Part) is { } part)
            Input.Lines.Add(LineInput.Of(new DraftLine(
                LineKind.Part, $"{part.Name} ({part.Number})", 1, 1, "pcs", part.Price, LineMoves.Default(form.Value.Taxes))));
        ModelState.Clear();
        await LoadAsync(cancel);
        return Page();
    }

    /// <param name="cancel"></param>
    /// <param name="freshVersion">After both values were shown, or a first keeping went well, the next post is held against what is stored now.</param>
    private async Task LoadAsync(CancellationToken cancel, bool freshVersion = false)
    {
        var form = (await estimates.FormAsync(Number, cancel)).Value!;
        var sheet = (await estimates.SheetAsync(Number, cancel)).Value!;
        if (freshVersion)
        {
            Input.Version = form.Version;
            ModelState.Remove("Input.Version");
        }
        LineMoves.AddSpare(Input.Lines, form.Taxes);
        Shown = new View(
            form, new LinesView(Input.Lines, form.Taxes, form.Currency, form.PricesIncludeTax, HasRange: true),
            EstimatePreview.Of(Input.ToDraft(), form), sheet.CustomerEmail,
            [.. sheet.Revisions.Where(revision => revision.State != EstimateState.Draft).Select(revision => revision.Revision)],
            [new SelectListItem("Choose a part", ""), .. form.Parts.Select(part => new SelectListItem(
                $"{part.Name} ({part.Number}), {face.Money(part.Price)}, {MoneyText.Quantity(part.OnHand)} on hand", part.Id.ToString()))]);
    }

    public sealed record View(
        EstimateForm Form, LinesView Lines, EstimateTotals Totals, string Email, IReadOnlyList<int> SentRevisions, IReadOnlyList<SelectListItem> PartItems);

    public sealed class InputModel
    {
        public uint? Version { get; set; }

        [StringLength(8000)]
        public string? WhatWasSeen { get; set; }

        [StringLength(4000)]
        public string? NeedsConsent { get; set; }

        [Display(Name = "Strip-down charge")]
        public decimal StripDownCharge { get; set; }

        [Display(Name = "Valid until")]
        public DateOnly ValidUntil { get; set; }

        public bool ByMail { get; set; }

        public Guid? Part { get; set; }

        [MaxLength(200)]
        public List<LineInput> Lines { get; set; } = [];

        public void From(EstimateForm form)
        {
            (Version, WhatWasSeen, NeedsConsent) = (form.Version, form.Draft.WhatWasSeen, form.Draft.NeedsConsent);
            (StripDownCharge, ValidUntil) = (form.Draft.StripDownCharge, form.Draft.ValidUntil);
            Lines = [.. form.Draft.Lines.Select(LineInput.Of)];
        }

        public EstimateDraft ToDraft() => new()
        {
            WhatWasSeen = WhatWasSeen ?? "",
            NeedsConsent = NeedsConsent ?? "",
            StripDownCharge = StripDownCharge,
            ValidUntil = ValidUntil,
            Lines = [.. Lines.Where(line => !line.IsBlank).Select(line => line.ToLine())],
        };
    }
}
