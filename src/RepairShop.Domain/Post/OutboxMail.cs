namespace RepairShop.Domain.Post;

/// <summary>A letter that must leave the building: written with the change that causes it, sent by a worker.</summary>
public sealed class OutboxMail
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid? RepairId { get; set; }

    public MailKind Kind { get; set; }

    public string ToName { get; set; } = "";

    public string ToAddress { get; set; } = "";

    public string Subject { get; set; } = "";

    public string Body { get; set; } = "";

    /// <summary>Attached papers, by <see cref="Paperwork.Paper"/> id.</summary>
    public Guid[] PaperIds { get; set; } = [];

    public MailState State { get; set; }

    public int Attempts { get; set; }

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset NextTryAt { get; set; }

    /// <summary>When handing over to the mail server began; a crash after this leaves the letter in doubt, not sent twice.</summary>
    public DateTimeOffset? HandingOverAt { get; set; }

    public DateTimeOffset? SentAt { get; set; }

    public string LastError { get; set; } = "";

    /// <summary>The letter this one repeats, when somebody pressed "Send again".</summary>
    public Guid? RepeatsId { get; set; }

    public uint Version { get; set; }
}

public enum MailKind
{
    BookedIn,
    Estimate,
    ServiceRecord,
    Invoice,
    CreditNote,
    Ready,
    Statement,
    Reminder,
}

public enum MailState
{
    Waiting,
    HandingOver,
    Sent,
    InDoubt,
    GivenUp,
}

/// <summary>The shop's own wording for one kind of letter.</summary>
public sealed class MailText
{
    public MailKind Kind { get; set; }

    public string Subject { get; set; } = "";

    public string Body { get; set; } = "";

    public uint Version { get; set; }
}
