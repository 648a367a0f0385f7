using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Shop;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class ProfilesModel(TaxProfileService profiles) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IReadOnlyList<TaxProfile> Profiles { get; private set; } = [];

    public Task OnGetAsync(CancellationToken ct) => Load(ct);

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => Load(ct));
        return await this.Answer(await profiles.Add(Input.ToProfile(), ct), $"The profile “{Input.Name}” is added.", () => RedirectToPage(), () => Load(ct));
    }

    public async Task<IActionResult> OnPostUsualAsync(Guid id, CancellationToken ct)
    {
        ModelState.Clear();
        return await this.Answer(await profiles.MakeUsual(id, ct), "Invoices start with this profile.", () => RedirectToPage(), () => Load(ct));
    }

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct)
    {
        ModelState.Clear();
        return await this.Answer(await profiles.Retire(id, ct), "The profile is retired; what was issued with it stays.", () => RedirectToPage(), () => Load(ct));
    }

    public static string Words(TaxProfile profile) => profile.Treatment switch
    {
        TaxTreatment.NotRegistered => "not registered, no tax",
        TaxTreatment.Export => With(profile, "export, zero-rated"),
        TaxTreatment.ReverseCharge => With(profile, "reverse charge"),
        TaxTreatment.Exempt => With(profile, "exempt"),
        _ => string.Join(", ", new[]
        {
            profile.PricesIncludeTax ? "tax in the prices" : "tax on top of the prices",
            profile.TaxesLabour ? "" : "on parts only",
            profile.Rounding == TaxRounding.PerLine ? "rounded on each line" : "",
            profile.CashAccounting ? "cash accounting" : "",
        }.Where(word => word.Length > 0)),
    };

    private static string With(TaxProfile profile, string words) => profile.Reason.Length > 0 ? $"{words}: {profile.Reason}" : words;

    private async Task Load(CancellationToken ct) => Profiles = await profiles.List(ct);

    public sealed class InputModel
    {
        [StringLength(60)]
        public string Name { get; set; } = "";

        public TaxTreatment Treatment { get; set; }

        public bool PricesIncludeTax { get; set; }

        public bool TaxesLabour { get; set; } = true;

        public TaxRounding Rounding { get; set; }

        [StringLength(500)]
        public string? Reason { get; set; }

        public bool CashAccounting { get; set; }

        public DateOnly? ValidFrom { get; set; }

        public DateOnly? ValidUntil { get; set; }

        public bool IsUsual { get; set; }

        internal TaxProfile ToProfile() => new()
        {
            Name = Name,
            Treatment = Treatment,
            PricesIncludeTax = PricesIncludeTax,
            TaxesLabour = TaxesLabour,
            Rounding = Rounding,
            Reason = Reason ?? "",
            CashAccounting = CashAccounting,
            ValidFrom = ValidFrom,
            ValidUntil = ValidUntil,
            IsUsual = IsUsual,
        };
    }
}
