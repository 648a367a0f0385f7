using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Estimates;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Estimates;

/// <summary>One revision, readable for ever; the answer to it, and consent to more.</summary>
public sealed class RevisionModel(EstimateService estimates, EstimateAnswerService answers) : PageModel
{
    public static IReadOnlyList<SelectListItem> Answers { get; } =
        [new("approved it", nameof(EstimateAnswer.Approved)), new("declined it", nameof(EstimateAnswer.Declined))];

    public static IReadOnlyList<SelectListItem> Ways { get; } =
        [.. Enum.GetValues<AnswerWay>().Where(way => way != AnswerWay.Link).Select(way => new SelectListItem(Words.Of(way), way.ToString()))];

    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty(SupportsGet = true)]
    public int Revision { get; set; }

    public AnswerInput Answer { get; set; } = new();

    public ConsentInput Consent { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        if (!await LoadAsync(cancel))
            return NotFound();
        Answer.By = Shown.Sheet.Customer;
        Consent.GivenBy = Shown.Sheet.Customer;
        return Page();
    }

    public async Task<IActionResult> OnPostAnswerAsync([Bind(Prefix = "Answer")] AnswerInput answer, CancellationToken cancel)
    {
        Answer = answer;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        return await PageResults.Answer(
            this, await answers.AnswerAsync(Number, Revision, answer.What, answer.By, answer.How, answer.AnswerNote ?? "", cancel),
            "The answer is recorded.", () => RedirectToPage(), () => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostConsentAsync([Bind(Prefix = "Consent")] ConsentInput consent, CancellationToken cancel)
    {
        Consent = consent;
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(cancel));
        return await PageResults.Answer(
            this, await answers.ConsentAsync(Number, consent.UpTo, consent.GivenBy, consent.ConsentHow, consent.Reason ?? "", cancel),
            "The consent is recorded.", () => RedirectToPage(), () => LoadAsync(cancel));
    }

    public async Task<IActionResult> OnPostReviseAsync(CancellationToken cancel) => await PageResults.Answer(
        this, await estimates.ReviseAsync(Number, Revision, cancel), "A new draft with the same lines: change it, then send it.",
        _ => RedirectToPage("Draft", new { Number }), () => LoadAsync(cancel));

    public async Task<IActionResult> OnPostRevokeAsync(CancellationToken cancel) => await PageResults.Answer(
        this, await answers.RevokeLinkAsync(Number, cancel), "The customer's link opens nothing any more.", () => RedirectToPage(), () => LoadAsync(cancel));

    private async Task<bool> LoadAsync(CancellationToken cancel)
    {
        var sheet = await estimates.SheetAsync(Number, cancel);
        if (sheet.Value?.Revisions.FirstOrDefault(revision => revision.Revision == Revision) is not { } offer)
            return false;
        Shown = new View(sheet.Value, offer, offer.State == EstimateState.Sent && sheet.Value.LatestSent?.Revision == Revision);
        return true;
    }

    public sealed record View(EstimateSheet Sheet, EstimateView Offer, bool TakesAnswer);

    public sealed class AnswerInput
    {
        public EstimateAnswer What { get; set; }

        [Display(Name = "Who"), StringLength(200)]
        public string By { get; set; } = "";

        public AnswerWay How { get; set; } = AnswerWay.Phone;

        [Display(Name = "Note"), StringLength(2000)]
        public string? AnswerNote { get; set; }
    }

    public sealed class ConsentInput
    {
        [Display(Name = "New limit")]
        public decimal UpTo { get; set; }

        [Display(Name = "Who agreed"), StringLength(200)]
        public string GivenBy { get; set; } = "";

        public AnswerWay ConsentHow { get; set; } = AnswerWay.Phone;

        [StringLength(2000)]
        public string? Reason { get; set; }
    }
}
