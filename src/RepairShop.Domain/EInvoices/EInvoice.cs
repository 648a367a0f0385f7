namespace RepairShop.Domain.EInvoices;

/// <summary>
/// An electronic invoice in the terms of EN 16931-1:2017: each member names its business term. All amounts are in the invoice's
/// currency; those of lines, discounts and charges are without tax, whatever the prices on the paper hold.
/// </summary>
public sealed record EInvoice
{
    /// <summary>BT-1.</summary>
    public required string Number { get; init; }

    /// <summary>BT-2.</summary>
    public required DateOnly IssueDate { get; init; }

    /// <summary>BT-3, UNTDID 1001: 380 invoice, 381 credit note, 386 deposit invoice.</summary>
    public required string TypeCode { get; init; }

    /// <summary>BT-5, ISO 4217.</summary>
    public required string Currency { get; init; }

    /// <summary>BT-9.</summary>
    public DateOnly? DueDate { get; init; }

    /// <summary>BT-20.</summary>
    public string? Terms { get; init; }

    /// <summary>BT-22.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>BT-25 with BT-26: the invoice taken back, or the deposit invoices taken off.</summary>
    public IReadOnlyList<(string Number, DateOnly? IssueDate)> Preceding { get; init; } = [];

    /// <summary>BT-72.</summary>
    public required DateOnly SupplyDate { get; init; }

    public required EParty Seller { get; init; }

    public required EParty Buyer { get; init; }

    /// <summary>BT-84; empty where no credit transfer is asked for.</summary>
    public string Iban { get; init; } = "";

    /// <summary>BT-85.</summary>
    public string AccountName { get; init; } = "";

    /// <summary>BT-86.</summary>
    public string Bic { get; init; } = "";

    /// <summary>BT-81, UNCL4461: 58 SEPA credit transfer, 30 credit transfer.</summary>
    public string MeansCode { get; init; } = "";

    /// <summary>BT-83.</summary>
    public string PaymentReference { get; init; } = "";

    public IReadOnlyList<EChange> Changes { get; init; } = [];

    public required IReadOnlyList<ELine> Lines { get; init; }

    public required IReadOnlyList<ETax> Taxes { get; init; }

    /// <summary>BT-106, 107, 108, 109, 110, 112, 113, 114 and 115.</summary>
    public required ESums Sums { get; init; }
}

/// <summary>Seller (BG-4) or buyer (BG-7).</summary>
/// <param name="Name">BT-27 or BT-44.</param>
/// <param name="Contact">BT-41 or BT-56: a person, where the name is a company's.</param>
/// <param name="Address"></param>
/// <param name="VatId">BT-31 or BT-48, with the country's letters in front; empty for none.</param>
/// <param name="RegistrationId">BT-30 or BT-47; empty for none.</param>
/// <param name="Email">BT-43 or BT-58.</param>
/// <param name="Phone">BT-42 or BT-57.</param>
public sealed record EParty(string Name, string Contact, EAddress Address, string VatId, string RegistrationId, string Email, string Phone);

/// <summary>BG-5 or BG-8.</summary>
/// <param name="Country">BT-40 or BT-55, ISO 3166-1 alpha-2.</param>
public sealed record EAddress(string Street, string Street2, string City, string PostalCode, string Region, string Country);

/// <summary>A discount (minus) or charge (plus): BG-20 and BG-21 on the document, BG-27 and BG-28 on a line.</summary>
/// <param name="Reason">BT-97, 104, 139 or 144.</param>
/// <param name="Amount">Without tax; its absolute value is BT-92, 99, 136 or 141.</param>
/// <param name="Percent">Absolute; BT-94, 101, 138 or 143; null for a plain amount.</param>
/// <param name="Base">BT-93, 100, 137 or 142; only with a percentage.</param>
/// <param name="Tax">On the document only.</param>
public sealed record EChange(string Reason, decimal Amount, decimal? Percent, decimal Base, ECategory? Tax);

/// <summary>BT-118 and BT-119, BT-151 and BT-152, BT-95 and BT-96, BT-102 and BT-103.</summary>
/// <param name="Code">UNCL5305.</param>
/// <param name="Percent">Null for O, which has no rate.</param>
public sealed record ECategory(string Code, decimal? Percent);

/// <summary>BG-25.</summary>
/// <param name="Id">BT-126.</param>
/// <param name="Name">BT-153.</param>
/// <param name="Description">BT-154; empty for none.</param>
/// <param name="SellersId">BT-155; empty for none.</param>
/// <param name="Quantity">BT-129.</param>
/// <param name="UnitCode">BT-130, UN/ECE Recommendation 20.</param>
/// <param name="Price">BT-146, without tax, not below zero.</param>
/// <param name="Change">BG-27 or BG-28; null for none.</param>
/// <param name="Amount">BT-131.</param>
/// <param name="Tax"></param>
public sealed record ELine(
    string Id, string Name, string Description, string SellersId, decimal Quantity, string UnitCode, decimal Price, EChange? Change, decimal Amount, ECategory Tax);

/// <summary>BG-23.</summary>
/// <param name="Tax"></param>
/// <param name="Base">BT-116.</param>
/// <param name="Amount">BT-117.</param>
/// <param name="Reason">BT-120; empty where there is tax.</param>
public sealed record ETax(ECategory Tax, decimal Base, decimal Amount, string Reason);

/// <summary>BG-22.</summary>
/// <param name="Lines">BT-106.</param>
/// <param name="Allowances">BT-107.</param>
/// <param name="Charges">BT-108.</param>
/// <param name="Net">BT-109.</param>
/// <param name="Tax">BT-110.</param>
/// <param name="Gross">BT-112.</param>
/// <param name="Paid">BT-113.</param>
/// <param name="Rounding">BT-114.</param>
/// <param name="Due">BT-115.</param>
public sealed record ESums(
    decimal Lines, decimal Allowances, decimal Charges, decimal Net, decimal Tax, decimal Gross, decimal Paid, decimal Rounding, decimal Due);
