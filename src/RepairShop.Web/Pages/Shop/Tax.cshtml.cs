using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class TaxModel(ShopService shop, TaxRateService rates) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    [BindProperty]
    public RateModel Rate { get; set; } = new();

    public IReadOnlyList<TaxRateRow> Rates { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken ct)
    {
        Input = InputModel.Of(await shop.Prices(ct));
        Rates = await rates.List(ct);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        this.OnlyCheck(nameof(Input));
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => Load(ct));
        return await this.Answer(await shop.SavePrices(Input.ToPrices(), ct), "Prices and tax are saved.", () => RedirectToPage(), () => Load(ct));
    }

    public async Task<IActionResult> OnPostAddAsync(CancellationToken ct)
    {
        this.OnlyCheck(nameof(Rate));
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAll(ct));
        return await AnswerRates(await rates.Add(Rate.Typed(), ct), $"The rate “{Rate.Name}” is added.", ct);
    }

    public async Task<IActionResult> OnPostUsualAsync(Guid id, CancellationToken ct) =>
        await AnswerRates(await rates.MakeDefault(id, ct), "New lines start with this rate.", ct);

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct) =>
        await AnswerRates(await rates.Retire(id, ct), "The rate is retired; what was issued with it stays.", ct);

    private Task<IActionResult> AnswerRates(Result result, string notice, CancellationToken ct)
    {
        this.OnlyCheck(nameof(Rate));
        return this.Answer(result, notice, () => RedirectToPage(null, null, null, "rates"), () => LoadAll(ct));
    }

    private async Task Load(CancellationToken ct)
    {
        Input.Version = (await shop.Prices(ct)).Version;
        Rates = await rates.List(ct);
    }

    private Task LoadAll(CancellationToken ct) => OnGetAsync(ct);

    public sealed class RateModel
    {
        [StringLength(60)]
        public string Name { get; set; } = "";

        public decimal Percent { get; set; }

        [Display(Name = "From")]
        public DateOnly? ValidFrom { get; set; }

        public bool IsExempt { get; set; }

        [StringLength(500)]
        public string? Reason { get; set; }

        internal TypedRate Typed() => new(Name, Percent, IsExempt ? TaxCategory.Exempt : TaxCategory.Standard, Reason ?? "", ValidFrom);
    }

    public sealed class InputModel
    {
        [Display(Name = "Labour rate")]
        public decimal LabourRate { get; set; }

        [Display(Name = "Rounding")]
        public LabourRounding LabourRounding { get; set; }

        [Display(Name = "Minimum charge")]
        public decimal MinimumCharge { get; set; }

        [Display(Name = "Strip-down charge")]
        public decimal StripDownCharge { get; set; }

        [Display(Name = "Estimates stand for"), Range(1, 730)]
        public int EstimateValidDays { get; set; }

        [Display(Name = "Invoices are due after"), Range(0, 365)]
        public int PaymentTermDays { get; set; }

        [Display(Name = "Warranty"), Range(0, 120)]
        public int WarrantyMonths { get; set; }

        public bool TaxRegistered { get; set; }

        [Display(Name = "Tax number"), StringLength(200)]
        public string? TaxNumber { get; set; }

        public bool PricesIncludeTax { get; set; }

        [Display(Name = "Registration number"), StringLength(200)]
        public string? RegistrationNumber { get; set; }

        [Display(Name = "Cash is rounded to")]
        public decimal CashStep { get; set; }

        public EInvoiceUse EInvoices { get; set; }

        public uint Version { get; set; }

        internal static InputModel Of(ShopPrices prices) => new()
        {
            LabourRate = prices.LabourRate,
            LabourRounding = prices.LabourRounding,
            MinimumCharge = prices.MinimumCharge,
            StripDownCharge = prices.StripDownCharge,
            EstimateValidDays = prices.EstimateValidDays,
            PaymentTermDays = prices.PaymentTermDays,
            WarrantyMonths = prices.WarrantyMonths,
            TaxRegistered = prices.TaxRegistered,
            TaxNumber = prices.TaxNumber,
            PricesIncludeTax = prices.PricesIncludeTax,
            RegistrationNumber = prices.RegistrationNumber,
            CashStep = prices.CashStep,
            EInvoices = prices.EInvoices,
            Version = prices.Version,
        };

        internal ShopPrices ToPrices() => new(
            LabourRate, LabourRounding, MinimumCharge, StripDownCharge, EstimateValidDays, PaymentTermDays, WarrantyMonths,
            TaxRegistered, TaxNumber ?? "", PricesIncludeTax, Version)
        {
            RegistrationNumber = RegistrationNumber ?? "",
            CashStep = CashStep,
            EInvoices = EInvoices,
        };
    }
}
