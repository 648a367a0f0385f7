namespace RepairShop.Domain.Invoices;

/// <summary>Money a customer paid at once, for one invoice, for several, or for none yet. Its shares are <see cref="Payment"/>s, the
/// rest is kept as the customer's credit; the database holds them to the amount. Append-only.</summary>
public sealed class Receipt
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid CustomerId { get; set; }

    /// <summary>ISO 4217; that of every invoice it pays.</summary>
    public string Currency { get; set; } = "";

    /// <summary>Above 0; below where it takes another receipt back.</summary>
    public decimal Amount { get; set; }

    public PaymentMethod Method { get; set; }

    public string Reference { get; set; } = "";

    public DateOnly PaidOn { get; set; }

    public DateTimeOffset RecordedAt { get; set; }

    public Guid RecordedBy { get; set; }

    /// <summary>The receipt this one takes back, when it was entered by mistake.</summary>
    public Guid? TakesBackId { get; set; }

    /// <summary>The line of a bank's statement it was booked from; null where it was typed. A line has one receipt that stands.</summary>
    public Guid? BankLineId { get; set; }

    /// <summary>One form, one receipt.</summary>
    public Guid FormKey { get; set; }
}

/// <summary>One movement of what the workshop holds for a customer: plus is kept, minus is used or given back. The sum in a currency
/// never falls below zero, which the database sees to under the lock of the customer's row. Append-only.</summary>
public sealed class CustomerCredit
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid CustomerId { get; set; }

    /// <summary>ISO 4217.</summary>
    public string Currency { get; set; } = "";

    public decimal Amount { get; set; }

    public CreditKind Kind { get; set; }

    /// <summary>The receipt it was left over from.</summary>
    public Guid? ReceiptId { get; set; }

    /// <summary>Its other side on an invoice: the payment made with it, or the money of an invoice that is kept as credit.</summary>
    public Guid? PaymentId { get; set; }

    /// <summary>The reminder whose fee was taken.</summary>
    public Guid? ReminderLetterId { get; set; }

    /// <summary>How the money came or went; <see cref="PaymentMethod.CustomerCredit"/> where none did.</summary>
    public PaymentMethod Method { get; set; }

    public string Reference { get; set; } = "";

    public DateOnly On { get; set; }

    public DateTimeOffset RecordedAt { get; set; }

    public Guid RecordedBy { get; set; }

    /// <summary>The money given back that was entered by mistake.</summary>
    public Guid? TakesBackId { get; set; }

    /// <summary>Of the form that gave money back; null where receipt or payment carry it.</summary>
    public Guid? FormKey { get; set; }
}

public enum CreditKind
{
    /// <summary>Left over from a receipt.</summary>
    LeftOver,

    /// <summary>Used on an invoice, or taken over from one.</summary>
    Invoice,

    /// <summary>Paid back to the customer.</summary>
    PaidBack,

    /// <summary>Taken for a fee of a reminder.</summary>
    Fee,
}

/// <summary>An invoice's rest, or part of it, given up as not to be had; below zero where the customer paid after all. No money, so
/// no figure of money counts it. Append-only.</summary>
public sealed class WriteOff
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid InvoiceId { get; set; }

    public decimal Amount { get; set; }

    public string Reason { get; set; } = "";

    public DateOnly On { get; set; }

    public DateTimeOffset RecordedAt { get; set; }

    public Guid RecordedBy { get; set; }

    /// <summary>The write-off this one undoes.</summary>
    public Guid? TakesBackId { get; set; }

    /// <summary>One form, one write-off.</summary>
    public Guid FormKey { get; set; }
}
