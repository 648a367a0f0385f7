namespace RepairShop.Domain.Reminders;

/// <summary>One step of asking for money that is late, as the owner set it.</summary>
public sealed class ReminderStep
{
    /// <summary>1 is the first; there are no gaps.</summary>
    public int Number { get; set; }

    /// <summary>Days after the day the invoice was due.</summary>
    public int DaysAfterDue { get; set; }

    /// <summary>What the letter is called: Second reminder.</summary>
    public string Title { get; set; } = "";

    /// <summary>In the owner's words, with the placeholders of <see cref="Post.MailKind.Reminder"/>.</summary>
    public string Text { get; set; } = "";

    /// <summary>Told only where the owner has turned fees on.</summary>
    public decimal Fee { get; set; }

    /// <summary>From the day of the letter to the new day to pay by.</summary>
    public int DaysToPay { get; set; }

    public uint Version { get; set; }
}

/// <summary>One letter to one customer about what is late. Append-only, but for the posting of a printed one and the waiving of its
/// fee, each written once.</summary>
public sealed class ReminderLetter
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid CustomerId { get; set; }

    public Guid PaperId { get; set; }

    /// <summary>ISO 4217; that of every invoice it names.</summary>
    public string Currency { get; set; } = "";

    /// <summary>Told on the letter and booked only when it is taken out of money that came; 0 for none.</summary>
    public decimal Fee { get; set; }

    public DateOnly SentOn { get; set; }

    /// <summary>The new day to pay by: the next step waits for it.</summary>
    public DateOnly PayBy { get; set; }

    public DateTimeOffset RecordedAt { get; set; }

    public Guid RecordedBy { get; set; }

    /// <summary>False for a customer without an address for mail: then it is printed and posted.</summary>
    public bool ByMail { get; set; }

    public DateTimeOffset? PostedAt { get; set; }

    public Guid? PostedBy { get; set; }

    public DateTimeOffset? FeeWaivedAt { get; set; }

    public Guid? FeeWaivedBy { get; set; }

    public List<Reminder> Reminders { get; set; } = [];
}

/// <summary>One step of one invoice, taken by a letter. Append-only; the database keeps steps in order, one a day, and each at what
/// the invoice owes.</summary>
public sealed class Reminder
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid LetterId { get; set; }

    public Guid InvoiceId { get; set; }

    public int Step { get; set; }

    /// <summary>What the step was called that day.</summary>
    public string Title { get; set; } = "";

    /// <summary>The letter's.</summary>
    public DateOnly SentOn { get; set; }

    /// <summary>What the letter said was owed.</summary>
    public decimal Due { get; set; }
}

/// <summary>No reminder of an invoice before a day, for a reason; the newest counts. Append-only.</summary>
public sealed class ReminderHold
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid InvoiceId { get; set; }

    /// <summary>From this day on it may be reminded of again; null where a hold is lifted.</summary>
    public DateOnly? Until { get; set; }

    public string Reason { get; set; } = "";

    public DateTimeOffset RecordedAt { get; set; }

    public Guid RecordedBy { get; set; }
}
