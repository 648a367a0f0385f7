namespace RepairShop.Domain.Repairs;

/// <summary>One visit of one camera, from booking in to return. Its stage is computed, see <see cref="StageFacts"/>.</summary>
public sealed class Repair
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    /// <summary>What is on the claim tag, such as 2026-0417.</summary>
    public string Number { get; set; } = "";

    public Guid CustomerId { get; set; }

    public Guid CameraId { get; set; }

    public DateTimeOffset BookedAt { get; set; }

    public Guid BookedBy { get; set; }

    /// <summary>What is wrong, in the customer's words.</summary>
    public string Complaint { get; set; } = "";

    /// <summary>Case, strap, caps, filters, film inside…</summary>
    public string[] CameWith { get; set; } = [];

    public string ConditionOnReceipt { get; set; } = "";

    public decimal? DeclaredValue { get; set; }

    public Arrival ArrivedHow { get; set; }

    public string ArrivalTracking { get; set; } = "";

    public DateOnly? WantedBy { get; set; }

    /// <summary>May be spent without asking, tax included; null when an estimate comes first.</summary>
    public decimal? PreApprovedLimit { get; set; }

    public string ConsentBy { get; set; } = "";

    public AnswerWay? ConsentHow { get; set; }

    public DateTimeOffset? ConsentAt { get; set; }

    public string Shelf { get; set; } = "";

    /// <summary>The repair whose warranty this one falls under.</summary>
    public Guid? WarrantyOfId { get; set; }

    public DateOnly? PromisedFor { get; set; }

    /// <summary>First taken to the bench.</summary>
    public DateTimeOffset? BenchAt { get; set; }

    public DateTimeOffset? ReadyAt { get; set; }

    public Guid? ReadyBy { get; set; }

    public DateTimeOffset? ReturnedAt { get; set; }

    public Guid? ReturnedBy { get; set; }

    public ReturnWay? ReturnHow { get; set; }

    /// <summary>Who collected it against the claim tag, or to whom it was posted.</summary>
    public string ReturnedTo { get; set; } = "";

    public string Carrier { get; set; } = "";

    public string ReturnTracking { get; set; } = "";

    /// <summary>What the customer should know and do: printed on the service record.</summary>
    public string Advice { get; set; } = "";

    /// <summary>What was left alone and why: printed on the service record.</summary>
    public string LeftAlone { get; set; } = "";

    /// <summary>Old parts given back with the camera: printed on the service record.</summary>
    public string PartsReturned { get; set; } = "";

    public uint Version { get; set; }
}

public enum Arrival
{
    BroughtIn,
    Post,
    Courier,
}

/// <summary>How somebody told us: at booking in, answering an estimate, agreeing to more.</summary>
public enum AnswerWay
{
    InPerson,
    Phone,
    Email,
    Letter,
    Link,
}

public enum ReturnWay
{
    Collected,
    Posted,
}

/// <summary>Something still missing that the owner let pass, with the reason.</summary>
public sealed class RepairPass
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public StillMissing Item { get; set; }

    public string Reason { get; set; } = "";

    public Guid By { get; set; }

    public DateTimeOffset At { get; set; }
}

/// <summary>A photo of a repair, or of one finding.</summary>
public sealed class Photo
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Guid? FindingId { get; set; }

    /// <summary>The step of the strip-down it was taken at.</summary>
    public Guid? StripStepId { get; set; }

    /// <summary>SHA-256, lower-case hex, of the stored JPEG.</summary>
    public string FileHash { get; set; } = "";

    public string ThumbnailHash { get; set; } = "";

    public int Width { get; set; }

    public int Height { get; set; }

    public string Caption { get; set; } = "";

    public int Position { get; set; }

    public DateTimeOffset AddedAt { get; set; }

    public Guid AddedBy { get; set; }

    /// <summary>Taken off the sheet; the file stays.</summary>
    public DateTimeOffset? RemovedAt { get; set; }
}
