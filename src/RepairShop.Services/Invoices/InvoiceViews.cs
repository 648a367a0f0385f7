using RepairShop.Domain.Invoices;
using RepairShop.Services.Estimates;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>All that the invoice page and the sheet's section show of one repair.</summary>
public sealed record MoneySheet(
    string RepairNumber, string Camera, string Customer, string CustomerEmail, string Currency, bool IsWarranty,
    CeilingView Ceiling, InvoiceForm? Draft, IReadOnlyList<InvoiceView> Issued, Suggested Suggested)
{
    /// <summary>On this repair so far with tax, less what was credited.</summary>
    public decimal Invoiced => Issued.Where(invoice => invoice.Kind == InvoiceKind.Invoice).Sum(invoice => invoice.Payable - invoice.Credited);

    /// <summary>Who pays, and what the workshop holds for them, by currency.</summary>
    public Guid CustomerId { get; init; }

    public IReadOnlyDictionary<string, decimal> Credit { get; init; } = new Dictionary<string, decimal>();

    public decimal WrittenOff => Issued.Sum(invoice => invoice.WrittenOff);

    public decimal Paid => Issued.Sum(invoice => invoice.Paid);

    public decimal Balance => Issued.Sum(invoice => invoice.Balance);
}

/// <summary>What a new draft could start from, and what it would come to with tax.</summary>
/// <param name="AsEstimated">Null without an approved estimate.</param>
/// <param name="AsWorked">Null without billable hours or parts.</param>
/// <param name="StripDown">Null unless an estimate with such a charge was declined last.</param>
/// <param name="WorkedHours">Rounded as on the invoice.</param>
public sealed record Suggested(decimal? AsEstimated, decimal? AsWorked, decimal? StripDown, decimal WorkedHours);

/// <summary>A draft in its form.</summary>
/// <param name="Ranges">The hours agreed for each labour line of an approved estimate, by its text: to be shown beside the quantity.</param>
public sealed record InvoiceForm(
    Guid Id, uint Version, InvoiceBasis Basis, InvoiceDraft Draft, IReadOnlyList<TaxChoice> Taxes, bool PricesIncludeTax, Totals Totals,
    IReadOnlyList<HoursRange> Ranges)
{
    /// <summary>Lines that take deposits off; made by the program.</summary>
    public IReadOnlyList<InvoiceLine> Deposits { get; init; } = [];

    /// <summary>Ways of taxing to choose from; empty where the shop has none.</summary>
    public IReadOnlyList<ProfileChoice> Profiles { get; init; } = [];

    /// <summary>The shop's smallest coin; 0 where nothing is rounded.</summary>
    public decimal CashStep { get; init; }

    /// <summary>What an electronic invoice or the law of the place would still ask for. None of them stops a paper.</summary>
    public IReadOnlyList<string> Hints { get; init; } = [];
}

public sealed record HoursRange(string Text, decimal Low, decimal High);

/// <summary>A draft as it stands in the form.</summary>
public sealed record InvoiceDraft
{
    public string Note { get; init; } = "";
    public DateOnly SupplyDate { get; init; }

    /// <summary>Null keeps the way it is taxed.</summary>
    public Guid? TaxProfileId { get; init; }

    /// <summary>Rounds what is to be paid to the shop's smallest coin.</summary>
    public bool RoundsToCoin { get; init; }

    /// <summary>Discounts (minus) and charges (plus) on the whole invoice.</summary>
    public IReadOnlyList<PaperChange> Changes { get; init; } = [];

    public IReadOnlyList<DraftLine> Lines { get; init; } = [];
}

/// <summary>One issued invoice or credit note.</summary>
public sealed record InvoiceView(
    Guid Id, InvoiceKind Kind, InvoiceBasis Basis, string Number, DateOnly IssueDate, DateOnly? DueDate, string Currency, decimal Net, decimal Tax,
    decimal Gross, decimal Paid, decimal Credited, decimal Balance, string Note, string? CreditsNumber, string? CreditedByNumber,
    IReadOnlyList<InvoiceLine> Lines, IReadOnlyList<PaymentView> Payments, Guid? PaperId, bool IsOverdue)
{
    public decimal CashRounding { get; init; }

    public decimal Payable => Gross + CashRounding;

    public IReadOnlyList<ChangeShare> Changes { get; init; } = [];

    public IReadOnlyList<TaxTotal> Taxes { get; init; } = [];

    /// <summary>What may still be given back; null for a credit note and where nothing is left.</summary>
    public CreditLeft? Left { get; init; }

    public bool PricesIncludeTax { get; init; }

    public bool HasEInvoice { get; init; }

    public decimal WrittenOff { get; init; }

    public IReadOnlyList<WriteOffView> WriteOffs { get; init; } = [];
}

/// <param name="IsUndone">Or the undoing itself.</param>
public sealed record WriteOffView(Guid Id, decimal Amount, string Reason, DateOnly On, bool IsUndone);

public sealed record PaymentView(
    Guid Id, decimal Amount, PaymentMethod Method, string Reference, DateOnly PaidOn, bool IsTakeBack, bool IsTakenBack)
{
    /// <summary>A share of money that was paid at once: it is taken back with the whole of it.</summary>
    public bool IsShare { get; init; }
}

/// <summary>A row of the list of invoices.</summary>
public sealed record InvoiceRow(
    Guid Id, string RepairNumber, InvoiceKind Kind, string? Number, DateOnly? IssueDate, DateOnly? DueDate, string Customer, string Camera,
    string Currency, decimal Gross, decimal Balance);

/// <summary>Which invoices are listed.</summary>
public enum InvoiceShow
{
    Unpaid,
    All,
    Drafts,
}
