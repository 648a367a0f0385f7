using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Paperwork;

/// <summary>The parts of a paper's facts that all papers share.</summary>
internal static class CommonFacts
{
    public static ShopFacts Of(ShopSettings shop) => new()
    {
        Name = shop.Name.Length > 0 ? shop.Name : "Workshop",
        AddressLines = Lines(shop.Address),
        Country = shop.Address.CountryCode,
        TaxNumber = OrNull(shop.TaxNumber),
        RegistrationNumber = OrNull(shop.RegistrationNumber),
        Address = Fields(shop.Address),
        Email = OrNull(shop.Email),
        Phone = OrNull(shop.Phone),
        Website = OrNull(shop.PublicAddress),
        Iban = OrNull(shop.Iban),
        Bic = OrNull(shop.Bic),
        BankDetails = OrNull(string.Join('\n', new[] { shop.AccountHolder == shop.Name ? "" : shop.AccountHolder, shop.BankName, shop.PaymentText }.Where(line => line.Length > 0))),
        Locale = shop.Locale,
        Currency = shop.Currency,
        TimeZone = shop.TimeZone,
    };

    public static PartyFacts Of(Customer customer) => new()
    {
        Name = customer.Name.Length > 0 ? customer.Name : customer.Company,
        AddressLines = [.. new[] { customer.Name.Length > 0 ? customer.Company : "" }.Where(line => line.Length > 0), .. Lines(customer.Address)],
        Country = OrNull(customer.Address.CountryCode),
        Company = customer.Name.Length > 0 ? OrNull(customer.Company) : null,
        Address = Fields(customer.Address),
        TaxNumber = OrNull(customer.TaxNumber),
        Email = OrNull(customer.Email),
        Phone = OrNull(customer.Phone),
    };

    public static CameraFacts Of(Camera camera) => new()
    {
        Maker = camera.Maker,
        Model = camera.Model,
        Variant = OrNull(camera.Variant),
        Format = OrNull(camera.Format),
        BodySerial = OrNull(camera.BodySerial),
        Lens = OrNull(camera.Lens),
        LensSerial = OrNull(camera.LensSerial),
        Shutter = OrNull(camera.Shutter),
        ShutterSerial = OrNull(camera.ShutterSerial),
        ShutterKind = camera.ShutterKind switch
        {
            ShutterKind.BetweenLens => "between-lens",
            ShutterKind.FocalPlane => "focal-plane",
            _ => null,
        },
    };

    public static LineGroup Of(LineKind kind) => InvoiceFigures.GroupOf(kind);

    public static string Words(Provenance provenance) => provenance switch
    {
        Provenance.New => "new",
        Provenance.NewOldStock => "new old stock",
        Provenance.Donor => "donor camera",
        Provenance.MadeHere => "made in the workshop",
        _ => "supplied by the customer",
    };

    public static IReadOnlyList<TaxTotalFacts> Of(IEnumerable<TaxTotal> taxes) => [.. taxes.Select(tax => new TaxTotalFacts
    {
        Name = tax.Name,
        Category = tax.Category,
        Percent = tax.Percent,
        Base = tax.Net,
        Tax = tax.Tax,
    })];

    /// <summary>A text box as points or paragraphs: one for each line that has something in it.</summary>
    public static IReadOnlyList<string> Points(string text) =>
        text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    public static string? OrNull(string text) => text.Length == 0 ? null : text;

    private static AddressFacts Fields(Address address) => new(address.Street, address.Street2, address.PostalCode, address.City, address.Region);

    /// <summary>Without the country, which papers name themselves where it differs.</summary>
    private static IReadOnlyList<string> Lines(Address address) =>
        [.. new[] { address.Street, address.Street2, $"{address.PostalCode} {address.City}".Trim(), address.Region }.Where(line => line.Length > 0)];
}
