namespace RepairShop.Domain.Checks;

/// <summary>When in the job something was checked or measured.</summary>
public enum Phase
{
    AsReceived,
    DuringWork,
    AfterService,
}

/// <summary>One function check of one repair at one phase. Name and unit are copied, so that the list in settings may change.</summary>
public sealed class CheckResult
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Phase Phase { get; set; }

    public string Name { get; set; } = "";

    public int Position { get; set; }

    public CheckOutcome Outcome { get; set; }

    public string Note { get; set; } = "";

    public double? Value { get; set; }

    public string Unit { get; set; } = "";

    public DateTimeOffset CheckedAt { get; set; }

    public Guid CheckedBy { get; set; }

    public uint Version { get; set; }
}

public enum CheckOutcome
{
    NotTested,
    Fine,
    Faulty,
    NotFitted,
}
