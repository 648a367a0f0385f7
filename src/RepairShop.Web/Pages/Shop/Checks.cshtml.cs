using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class ChecksModel(CheckListService checks, ShopService shop) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    [BindProperty]
    public CheckModel Check { get; set; } = new();

    public IReadOnlyList<CheckRow> List { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken ct)
    {
        Input = InputModel.Of(await shop.Limits(ct));
        List = await checks.List(ct);
    }

    public async Task<IActionResult> OnPostAddAsync(CancellationToken ct)
    {
        this.OnlyCheck(nameof(Check));
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => OnGetAsync(ct));
        return await AnswerList(await checks.Add(Check.Name, Check.Unit ?? "", ct), $"“{Check.Name}” is on the list.", ct);
    }

    public async Task<IActionResult> OnPostUpAsync(Guid id, CancellationToken ct) =>
        await AnswerList(await checks.MoveUp(id, ct), null, ct);

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct) =>
        await AnswerList(await checks.SetRetired(id, true, ct), "The check is retired; repairs keep what was noted.", ct);

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct) =>
        await AnswerList(await checks.SetRetired(id, false, ct), "The check is on the list again.", ct);

    public async Task<IActionResult> OnPostLimitsAsync(CancellationToken ct)
    {
        this.OnlyCheck(nameof(Input));
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadList(ct));
        return await this.Answer(
            await shop.SaveLimits(Input.ToLimits(), ct), "The limits are saved.", () => RedirectToPage(null, null, null, "limits"), () => LoadList(ct));
    }

    private Task<IActionResult> AnswerList(Result result, string? notice, CancellationToken ct)
    {
        this.OnlyCheck(nameof(Check));
        return this.Answer(result, notice, () => RedirectToPage(null, null, null, "list"), () => OnGetAsync(ct));
    }

    private async Task LoadList(CancellationToken ct)
    {
        Input.Version = (await shop.Limits(ct)).Version;
        List = await checks.List(ct);
    }

    public sealed class CheckModel
    {
        [Display(Name = "New check"), StringLength(120)]
        public string Name { get; set; } = "";

        [Display(Name = "Measured in"), StringLength(20)]
        public string? Unit { get; set; }
    }

    public enum MarkRule
    {
        [Display(Name = "the true value, 1/64 s")]
        True,

        [Display(Name = "the mark as written, 1/60 s")]
        Literal,
    }

    public sealed class InputModel
    {
        [Display(Name = "Marks")]
        public MarkRule Marks { get; set; }

        [Display(Name = "Slow speeds go up to"), StringLength(20)]
        public string Boundary { get; set; } = "";

        [Display(Name = "Limit there and slower")]
        public double SlowLimitStops { get; set; }

        [Display(Name = "Limit faster than that")]
        public double FastLimitStops { get; set; }

        [Display(Name = "Where these limits come from"), StringLength(2000)]
        public string? LimitProvenance { get; set; }

        [Display(Name = "Usual instrument"), StringLength(200)]
        public string? DefaultInstrument { get; set; }

        [Display(Name = "Its smallest step")]
        public double? ResolutionMilliseconds { get; set; }

        public uint Version { get; set; }

        internal static InputModel Of(ShopLimits limits) => new()
        {
            Marks = limits.LiteralMarks ? MarkRule.Literal : MarkRule.True,
            Boundary = limits.BoundaryMark,
            SlowLimitStops = limits.SlowLimitStops,
            FastLimitStops = limits.FastLimitStops,
            LimitProvenance = limits.LimitProvenance,
            DefaultInstrument = limits.DefaultInstrument,
            ResolutionMilliseconds = limits.ResolutionMilliseconds,
            Version = limits.Version,
        };

        internal ShopLimits ToLimits() => new(
            Marks == MarkRule.Literal, SlowLimitStops, FastLimitStops, Boundary, LimitProvenance ?? "",
            DefaultInstrument ?? "", ResolutionMilliseconds, Version);
    }
}
