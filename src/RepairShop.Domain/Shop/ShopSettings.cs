using RepairShop.Domain.Customers;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Shop;

/// <summary>The one workshop this book belongs to. What was issued keeps its own frozen copy of what it used.</summary>
public sealed class ShopSettings
{
    public const int OnlyId = 1;

    public int Id { get; set; } = OnlyId;

    public string Name { get; set; } = "";

    public Address Address { get; set; } = new();

    public string Email { get; set; } = "";

    public string Phone { get; set; } = "";

    /// <summary>Where customers reach this program from outside, such as https://book.example.com; empty: papers carry no answer link.</summary>
    public string PublicAddress { get; set; } = "";

    public bool TaxRegistered { get; set; }

    public string TaxNumber { get; set; } = "";

    /// <summary>The business's number in a public register, or its repair dealer's registration; printed, and BT-30 of an e-invoice.</summary>
    public string RegistrationNumber { get; set; } = "";

    public EInvoiceUse EInvoices { get; set; }

    /// <summary>The smallest coin cash totals are rounded to: 0.05 for CHF; 0 where cash needs no rounding.</summary>
    public decimal CashStep { get; set; }

    public bool PricesIncludeTax { get; set; }

    /// <summary>ISO 4217 code.</summary>
    public string Currency { get; set; } = "EUR";

    /// <summary>BCP 47 language tag: how dates, numbers and money are written.</summary>
    public string Locale { get; set; } = "en-GB";

    /// <summary>IANA time zone name.</summary>
    public string TimeZone { get; set; } = "Europe/London";

    /// <summary>Price of one hour, with or without tax as <see cref="PricesIncludeTax"/> says.</summary>
    public decimal LabourRate { get; set; }

    public LabourRounding LabourRounding { get; set; }

    /// <summary>The least that labour on one repair comes to; 0 for none.</summary>
    public decimal MinimumCharge { get; set; }

    /// <summary>Asked for taking apart and putting together again when an estimate is declined.</summary>
    public decimal StripDownCharge { get; set; }

    public int EstimateValidDays { get; set; } = 30;

    public int PaymentTermDays { get; set; } = 14;

    public int WarrantyMonths { get; set; } = 6;

    /// <summary>Whether reminders ask for the fees of their steps. Off until the owner turns it on: fees are lawful in some places only.</summary>
    public bool ReminderFees { get; set; }

    public string BankName { get; set; } = "";

    public string AccountHolder { get; set; } = "";

    public string Iban { get; set; } = "";

    public string Bic { get; set; } = "";

    /// <summary>How to pay where there is no IBAN, printed as it is.</summary>
    public string PaymentText { get; set; } = "";

    public string ConditionsText { get; set; } = "";

    public string EstimateText { get; set; } = "";

    public string ServiceRecordText { get; set; } = "";

    public string InvoiceText { get; set; } = "";

    public string RepairNumberFormat { get; set; } = "{year}-{number:0000}";

    public string InvoiceNumberFormat { get; set; } = "I-{year}-{number:0000}";

    public string CreditNoteNumberFormat { get; set; } = "C-{year}-{number:0000}";

    public string PartNumberFormat { get; set; } = "P{number:0000}";

    /// <summary>Whether a mark such as 1/60 is held against 1/64 s (true binary) or read literally.</summary>
    public bool LiteralMarks { get; set; }

    /// <summary>Allowed error in stops, either way, at <see cref="LimitBoundarySeconds"/> and slower.</summary>
    public double SlowLimitStops { get; set; } = 0.3;

    /// <summary>Allowed error in stops, either way, faster than <see cref="LimitBoundarySeconds"/>.</summary>
    public double FastLimitStops { get; set; } = 0.45;

    public double LimitBoundarySeconds { get; set; } = 1.0 / 125;

    /// <summary>Who chose the limits and after what, printed on the service record.</summary>
    public string LimitProvenance { get; set; } = "";

    public string DefaultInstrument { get; set; } = "";

    /// <summary>Smallest step the instrument shows, in seconds; null when not known.</summary>
    public double? DefaultResolutionSeconds { get; set; }

    public uint Version { get; set; }
}

/// <summary>How a repair's billable minutes are rounded, once, on the invoice.</summary>
public enum LabourRounding
{
    None,
    UpToSixMinutes,
    UpToFifteenMinutes,
}

/// <summary>Whether an electronic invoice is written beside the paper.</summary>
public enum EInvoiceUse
{
    Never,

    /// <summary>Written when nothing is missing; else the paper goes alone.</summary>
    WherePossible,

    /// <summary>Nothing is issued without it.</summary>
    Always,
}

/// <summary>A named tax rate; retired or ended rather than changed, so that nothing issued moves.</summary>
public sealed class TaxRate
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Name { get; set; } = "";

    public decimal Percent { get; set; }

    public TaxCategory Category { get; set; }

    /// <summary>Why nothing is charged, for an exempt rate; printed.</summary>
    public string Reason { get; set; } = "";

    /// <summary>First day it may be used, by the day the work was done; null for always.</summary>
    public DateOnly? ValidFrom { get; set; }

    /// <summary>Last day it may be used; null for ever.</summary>
    public DateOnly? ValidUntil { get; set; }

    public bool IsDefault { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }

    public uint Version { get; set; }

    public bool IsValidOn(DateOnly day) => RetiredAt is null && !(day < ValidFrom) && !(day > ValidUntil);
}

/// <summary>One line of the shop's own list of function checks.</summary>
public sealed class CheckItem
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Name { get; set; } = "";

    /// <summary>Unit of an optional measured value, such as s or mm; empty when the check has none.</summary>
    public string Unit { get; set; } = "";

    public int Position { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }
}

/// <summary>The last number given out in one series: taken under a row lock in the transaction that uses it, so no gaps.</summary>
public sealed class NumberSeries
{
    /// <summary>Kind of number, with the year where the format has one: "invoice:2026".</summary>
    public string Key { get; set; } = "";

    public int LastNumber { get; set; }
}
