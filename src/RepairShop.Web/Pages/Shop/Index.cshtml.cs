using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class IndexModel(ShopService shop) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    /// <summary>Nobody has filled this in yet.</summary>
    public bool IsNew { get; private set; }

    public IEnumerable<SelectListItem> CountryChoices => ShopChoices.Countries(Input.CountryCode);

    public IEnumerable<SelectListItem> CurrencyChoices => ShopChoices.Currencies;

    public IEnumerable<SelectListItem> LocaleChoices => ShopChoices.Locales;

    public IEnumerable<SelectListItem> TimeZoneChoices => ShopChoices.TimeZones(Input.TimeZone);

    public async Task OnGetAsync(CancellationToken ct)
    {
        Input = InputModel.Of(await shop.Identity(ct));
        IsNew = Input.Name.Length == 0;
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(
            await shop.SaveIdentity(Input.ToIdentity(), ct), "The shop is saved.", () => RedirectToPage(),
            async () => Input.Version = (await shop.Identity(ct)).Version);
    }

    public sealed class InputModel
    {
        [Display(Name = "Name of the shop"), StringLength(200)]
        public string Name { get; set; } = "";

        [StringLength(200)]
        public string Street { get; set; } = "";

        [Display(Name = "Second line"), StringLength(200)]
        public string? Street2 { get; set; }

        [Display(Name = "Postal code"), StringLength(40)]
        public string? PostalCode { get; set; }

        [StringLength(200)]
        public string City { get; set; } = "";

        [StringLength(200)]
        public string? Region { get; set; }

        [Display(Name = "Country"), StringLength(2)]
        public string CountryCode { get; set; } = "";

        [Display(Name = "E-mail"), EmailAddress, StringLength(200)]
        public string Email { get; set; } = "";

        [StringLength(200)]
        public string? Phone { get; set; }

        [Display(Name = "Web address"), StringLength(200)]
        public string? PublicAddress { get; set; }

        [StringLength(3)]
        public string Currency { get; set; } = "";

        [Display(Name = "Written as in"), StringLength(60)]
        public string Locale { get; set; } = "";

        [Display(Name = "Time zone"), StringLength(60)]
        public string TimeZone { get; set; } = "";

        [Display(Name = "Account holder"), StringLength(200)]
        public string? AccountHolder { get; set; }

        [Display(Name = "Bank"), StringLength(200)]
        public string? BankName { get; set; }

        [Display(Name = "IBAN"), StringLength(60)]
        public string? Iban { get; set; }

        [Display(Name = "BIC"), StringLength(40)]
        public string? Bic { get; set; }

        [Display(Name = "Payment text"), StringLength(2000)]
        public string? PaymentText { get; set; }

        public uint Version { get; set; }

        internal static InputModel Of(ShopIdentity shop) => new()
        {
            Name = shop.Name,
            Street = shop.Street,
            Street2 = shop.Street2,
            PostalCode = shop.PostalCode,
            City = shop.City,
            Region = shop.Region,
            CountryCode = shop.CountryCode,
            Email = shop.Email,
            Phone = shop.Phone,
            PublicAddress = shop.PublicAddress,
            Currency = shop.Currency,
            Locale = shop.Locale,
            TimeZone = shop.TimeZone,
            AccountHolder = shop.AccountHolder,
            BankName = shop.BankName,
            Iban = shop.Iban,
            Bic = shop.Bic,
            PaymentText = shop.PaymentText,
            Version = shop.Version,
        };

        internal ShopIdentity ToIdentity() => new()
        {
            Name = Name,
            Street = Street,
            Street2 = Street2 ?? "",
            PostalCode = PostalCode ?? "",
            City = City,
            Region = Region ?? "",
            CountryCode = CountryCode,
            Email = Email,
            Phone = Phone ?? "",
            PublicAddress = PublicAddress ?? "",
            Currency = Currency,
            Locale = Locale,
            TimeZone = TimeZone,
            AccountHolder = AccountHolder ?? "",
            BankName = BankName ?? "",
            Iban = Iban ?? "",
            Bic = Bic ?? "",
            PaymentText = PaymentText ?? "",
            Version = Version,
        };
    }
}
