using RepairShop.Domain.Shop;

namespace RepairShop.Services.Shop;

/// <summary>Who the shop is and how it is paid: the first page of the settings.</summary>
public sealed record ShopIdentity
{
    public required string Name { get; init; }
    public required string Street { get; init; }
    public required string Street2 { get; init; }
    public required string PostalCode { get; init; }
    public required string City { get; init; }
    public required string Region { get; init; }
    public required string CountryCode { get; init; }
    public required string Email { get; init; }
    public required string Phone { get; init; }
    public required string PublicAddress { get; init; }
    public required string Currency { get; init; }
    public required string Locale { get; init; }
    public required string TimeZone { get; init; }
    public required string AccountHolder { get; init; }
    public required string BankName { get; init; }
    public required string Iban { get; init; }
    public required string Bic { get; init; }
    public required string PaymentText { get; init; }
    public required uint Version { get; init; }

    internal static ShopIdentity Of(ShopSettings shop) => new()
    {
        Name = shop.Name,
        Street = shop.Address.Street,
        Street2 = shop.Address.Street2,
        PostalCode = shop.Address.PostalCode,
        City = shop.Address.City,
        Region = shop.Address.Region,
        CountryCode = shop.Address.CountryCode,
        Email = shop.Email,
        Phone = shop.Phone,
        PublicAddress = shop.PublicAddress,
        Currency = shop.Currency,
        Locale = shop.Locale,
        TimeZone = shop.TimeZone,
        AccountHolder = shop.AccountHolder,
        BankName = shop.BankName,
        Iban = Domain.Shop.Iban.Grouped(shop.Iban),
        Bic = shop.Bic,
        PaymentText = shop.PaymentText,
        Version = shop.Version,
    };

    internal void WriteTo(ShopSettings shop)
    {
        shop.Name = Name.Trim();
        shop.Address = new()
        {
            Street = Street.Trim(),
            Street2 = Street2.Trim(),
            PostalCode = PostalCode.Trim(),
            City = City.Trim(),
            Region = Region.Trim(),
            CountryCode = CountryCode,
        };
        shop.Email = Email.Trim();
        shop.Phone = Phone.Trim();
        shop.PublicAddress = PublicAddress.Trim().TrimEnd('/');
        shop.Currency = Currency;
        shop.Locale = Locale;
        shop.TimeZone = TimeZone;
        shop.AccountHolder = AccountHolder.Trim();
        shop.BankName = BankName.Trim();
        shop.Iban = Domain.Shop.Iban.Plain(Iban);
        shop.Bic = Domain.Shop.Iban.Plain(Bic);
        shop.PaymentText = PaymentText.Trim();
    }
}

/// <summary>Prices, periods and tax.</summary>
public sealed record ShopPrices(
    decimal LabourRate, LabourRounding LabourRounding, decimal MinimumCharge, decimal StripDownCharge,
    int EstimateValidDays, int PaymentTermDays, int WarrantyMonths,
    bool TaxRegistered, string TaxNumber, bool PricesIncludeTax, uint Version)
{
    public string RegistrationNumber { get; init; } = "";
    public EInvoiceUse EInvoices { get; init; }
    public decimal CashStep { get; init; }
}

/// <summary>What shutter readings are held against.</summary>
/// <param name="BoundaryMark">The marked speed at which the slow limit ends, such as 1/125.</param>
public sealed record ShopLimits(
    bool LiteralMarks, double SlowLimitStops, double FastLimitStops, string BoundaryMark, string LimitProvenance,
    string DefaultInstrument, double? ResolutionMilliseconds, uint Version);

public sealed record ShopTexts(string Conditions, string Estimate, string ServiceRecord, string Invoice, uint Version);

public sealed record ShopNumbers(string Repair, string Invoice, string CreditNote, string Part, uint Version);
