using RepairShop.Domain.Cameras;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Demo;

/// <summary>The invented workshop as it stands in <c>seed/demo.json</c>.</summary>
internal sealed record DemoSeed(
    SeedShop Shop, SeedPerson[] People, SeedCustomer[] Customers, SeedCamera[] Cameras, SeedPart[] Parts,
    Dictionary<string, SeedCase> Cases, SeedRepair[] Repairs);

internal sealed record SeedShop(
    string Name, string Street, string PostalCode, string City, string CountryCode, string Email, string Phone, string TaxNumber,
    string Currency, string Locale, string TimeZone, decimal LabourRate, LabourRounding LabourRounding, decimal MinimumCharge,
    decimal StripDownCharge, int WarrantyMonths, string BankName, string AccountHolder, string Iban, SeedTax[] TaxRates,
    string Instrument, double ResolutionSeconds);

internal sealed record SeedTax(string Name, decimal Percent, bool IsDefault);

internal sealed record SeedPerson(string Key, string Name, string Email, string Role);

internal sealed record SeedCustomer(
    string Key, string Name, string Company, string Email, string Phone, string Street, string PostalCode, string City, string CountryCode,
    string TaxNumber = "", string Profile = "");

internal sealed record SeedCamera(
    string Key, string Owner, string Maker, string Model, string Variant, string Format, string BodySerial, string Lens, string LensSerial,
    ShutterKind ShutterKind, string Shutter, string[] Speeds);

internal sealed record SeedPart(
    string Key, string Number, string Name, string Fits, Provenance Provenance, decimal Cost, decimal Price, string Place, decimal Reorder, decimal Received);

/// <summary>What one kind of job is like: what is wrong, what it measures, what is found and done.</summary>
internal sealed record SeedCase(
    string Complaint, string Condition, SeedErrors? Before, SeedErrors After, string[] Faulty, SeedFinding[] Findings, SeedHours[] Hours,
    decimal Low, decimal High, SeedUse[] Parts, string Seen, string[] FindingPhotos);

/// <summary>Error in stops at the slow end, in the middle and at the fast end of the dial.</summary>
internal sealed record SeedErrors(double Slow, double Middle, double Fast);

internal sealed record SeedFinding(string Component, Condition Condition, string Text, string EarlierWork, SeedGauge? Gauge, string Action);

internal sealed record SeedGauge(string Name, double Value, string Unit, double? Low, double? High);

internal sealed record SeedHours(string Activity, decimal Hours);

internal sealed record SeedUse(string Part, decimal Quantity);

internal sealed record SeedRepair(
    int DaysAgo, string Camera, string Case, string Plan, string[] CameWith, string Shelf, decimal DeclaredValue, string[] Photos,
    Arrival Arrived, ReturnWay ReturnHow, decimal? PreApproved, bool Further, bool Warranty, int? Wanted, bool Recorded = false);
