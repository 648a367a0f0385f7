using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>The settings of the one shop, page by page. What was issued keeps its own copy and never moves.</summary>
public sealed class ShopService(ShopDb db, ShopFace face)
{
    public async Task<ShopIdentity> Identity(CancellationToken ct = default) => ShopIdentity.Of(await Read(ct));

    public async Task<Result> SaveIdentity(ShopIdentity identity, CancellationToken ct = default)
    {
        if (Currency.Find(identity.Currency) is { IsDone: false, Failure: var currency })
            return currency;
        if (!ShopCulture.IsLocale(identity.Locale))
            return new LocaleUnknown(identity.Locale);
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(identity.TimeZone, out _))
            return new TimeZoneUnknown(identity.TimeZone);
        if (!Countries.IsKnown(identity.CountryCode))
            return new CountryUnknown(identity.CountryCode);
        if (identity.Iban.Trim().Length > 0 && Iban.Check(identity.Iban) is { IsDone: false, Failure: var iban })
            return iban;
        if (identity.PublicAddress.Trim().Length > 0 && !IsWebAddress(identity.PublicAddress.Trim()))
            return new PublicAddressWrong(identity.PublicAddress.Trim());
        return await Save(identity.Version, identity.WriteTo, ct);
    }

    public async Task<ShopPrices> Prices(CancellationToken ct = default)
    {
        var shop = await Read(ct);
        return new ShopPrices(
            shop.LabourRate, shop.LabourRounding, shop.MinimumCharge, shop.StripDownCharge,
            shop.EstimateValidDays, shop.PaymentTermDays, shop.WarrantyMonths,
            shop.TaxRegistered, shop.TaxNumber, shop.PricesIncludeTax, shop.Version)
        {
            RegistrationNumber = shop.RegistrationNumber,
            EInvoices = shop.EInvoices,
            CashStep = shop.CashStep,
        };
    }

    public async Task<Result> SavePrices(ShopPrices prices, CancellationToken ct = default)
    {
        if (prices.LabourRate < 0)
            return new NegativeAmount(nameof(prices.LabourRate), prices.LabourRate);
        if (prices.MinimumCharge < 0)
            return new NegativeAmount(nameof(prices.MinimumCharge), prices.MinimumCharge);
        if (prices.StripDownCharge < 0)
            return new NegativeAmount(nameof(prices.StripDownCharge), prices.StripDownCharge);
        if (prices.TaxRegistered && string.IsNullOrWhiteSpace(prices.TaxNumber))
            return new TaxNumberMissing();
        if (prices.CashStep is < 0 or > 1000)
            return new CashStepWrong(prices.CashStep);
        var country = (await Read(ct)).Address.CountryCode;
        if (prices.TaxRegistered && TaxNumbers.Check(prices.TaxNumber, country) is var verdict and (TaxNumberVerdict.WrongFormat or TaxNumberVerdict.WrongCheckDigits))
            return new TaxNumberWrong(nameof(prices.TaxNumber), prices.TaxNumber.Trim(), country, verdict == TaxNumberVerdict.WrongFormat);
        return await Save(prices.Version, shop =>
        {
            shop.LabourRate = prices.LabourRate;
            shop.LabourRounding = prices.LabourRounding;
            shop.MinimumCharge = prices.MinimumCharge;
            shop.StripDownCharge = prices.StripDownCharge;
            shop.EstimateValidDays = prices.EstimateValidDays;
            shop.PaymentTermDays = prices.PaymentTermDays;
            shop.WarrantyMonths = prices.WarrantyMonths;
            shop.TaxRegistered = prices.TaxRegistered;
            shop.TaxNumber = prices.TaxNumber.Trim();
            shop.PricesIncludeTax = prices.PricesIncludeTax;
            shop.RegistrationNumber = prices.RegistrationNumber.Trim();
            shop.EInvoices = prices.EInvoices;
            shop.CashStep = prices.CashStep;
        }, ct);
    }

    public async Task<ShopLimits> Limits(CancellationToken ct = default)
    {
        var shop = await Read(ct);
        return new ShopLimits(
            shop.LiteralMarks, shop.SlowLimitStops, shop.FastLimitStops, BoundaryMark.Write(shop.LimitBoundarySeconds),
            shop.LimitProvenance, shop.DefaultInstrument, shop.DefaultResolutionSeconds * 1000, shop.Version);
    }

    public async Task<Result> SaveLimits(ShopLimits limits, CancellationToken ct = default)
    {
        if (limits.SlowLimitStops is not (> 0 and <= 3))
            return new LimitOutOfRange(nameof(limits.SlowLimitStops), limits.SlowLimitStops);
        if (limits.FastLimitStops is not (> 0 and <= 3))
            return new LimitOutOfRange(nameof(limits.FastLimitStops), limits.FastLimitStops);
        if (BoundaryMark.Read(limits.BoundaryMark) is not { } boundarySeconds)
            return new BoundaryOutOfRange(limits.BoundaryMark);
        if (limits.ResolutionMilliseconds is { } step and not (> 0 and <= 1000))
            return new ResolutionOutOfRange(step);
        return await Save(limits.Version, shop =>
        {
            shop.LiteralMarks = limits.LiteralMarks;
            shop.SlowLimitStops = limits.SlowLimitStops;
            shop.FastLimitStops = limits.FastLimitStops;
            shop.LimitBoundarySeconds = boundarySeconds;
            shop.LimitProvenance = limits.LimitProvenance.Trim();
            shop.DefaultInstrument = limits.DefaultInstrument.Trim();
            shop.DefaultResolutionSeconds = limits.ResolutionMilliseconds / 1000;
        }, ct);
    }

    public async Task<ShopTexts> Texts(CancellationToken ct = default)
    {
        var shop = await Read(ct);
        return new ShopTexts(shop.ConditionsText, shop.EstimateText, shop.ServiceRecordText, shop.InvoiceText, shop.Version);
    }

    public Task<Result> SaveTexts(ShopTexts texts, CancellationToken ct = default) => Save(texts.Version, shop =>
    {
        shop.ConditionsText = texts.Conditions.Trim();
        shop.EstimateText = texts.Estimate.Trim();
        shop.ServiceRecordText = texts.ServiceRecord.Trim();
        shop.InvoiceText = texts.Invoice.Trim();
    }, ct);

    public async Task<ShopNumbers> Numbers(CancellationToken ct = default)
    {
        var shop = await Read(ct);
        return new ShopNumbers(
            shop.RepairNumberFormat, shop.InvoiceNumberFormat, shop.CreditNoteNumberFormat, shop.PartNumberFormat, shop.Version);
    }

    public async Task<Result> SaveNumbers(ShopNumbers numbers, CancellationToken ct = default)
    {
        (string Field, string Format)[] formats =
        [
            (nameof(numbers.Repair), numbers.Repair), (nameof(numbers.Invoice), numbers.Invoice),
            (nameof(numbers.CreditNote), numbers.CreditNote), (nameof(numbers.Part), numbers.Part),
        ];
        foreach (var (field, format) in formats)
        {
            if (!NumberFormat.IsValid(format.Trim()))
                return new NumberFormatWrong(field, format);
        }

        return await Save(numbers.Version, shop =>
        {
            shop.RepairNumberFormat = numbers.Repair.Trim();
            shop.InvoiceNumberFormat = numbers.Invoice.Trim();
            shop.CreditNoteNumberFormat = numbers.CreditNote.Trim();
            shop.PartNumberFormat = numbers.Part.Trim();
        }, ct);
    }

    private Task<ShopSettings> Read(CancellationToken ct) => db.Shop.AsNoTracking().SingleAsync(ct);

    private async Task<Result> Save(uint version, Action<ShopSettings> change, CancellationToken ct)
    {
        var shop = await db.Shop.SingleAsync(ct);
        change(shop);
        db.Entry(shop).Property(row => row.Version).OriginalValue = version;
        var saved = await db.SaveAsync(ct);
        if (saved.IsDone)
            face.Changed();
        return saved;
    }

    private static bool IsWebAddress(string typed) =>
        Uri.TryCreate(typed, UriKind.Absolute, out var uri) && uri.Scheme is "https" or "http" && uri is { Query: "", Fragment: "" };
}
