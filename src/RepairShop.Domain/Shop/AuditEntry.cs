namespace RepairShop.Domain.Shop;

/// <summary>One change to one row: who, when, what was and what is. Append-only.</summary>
public sealed class AuditEntry
{
    public long Id { get; set; }

    public DateTimeOffset At { get; set; }

    /// <summary>Null when the program itself did it.</summary>
    public Guid? By { get; set; }

    public string Entity { get; set; } = "";

    public string EntityId { get; set; } = "";

    public Guid? RepairId { get; set; }

    /// <summary>added, changed or removed.</summary>
    public string Action { get; set; } = "";

    /// <summary>Field names with old and new value, as JSON.</summary>
    public string Changes { get; set; } = "{}";
}
