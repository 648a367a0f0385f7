namespace RepairShop.Domain.Notebook;

/// <summary>What the workshop knows about one camera model. Everything else of the notebook points at it.</summary>
public sealed class ModelPage
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Maker { get; set; } = "";

    public string Model { get; set; } = "";

    /// <summary>The speeds engraved on the dial, slowest first, in canonical text: 1, 1/2, 1/125.</summary>
    public string[] MarkedSpeeds { get; set; } = [];

    public string Notes { get; set; } = "";

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset? RemovedAt { get; set; }

    public uint Version { get; set; }
}

/// <summary>One variant of a model and the traits that tell it from the others.</summary>
public sealed class ModelVariant
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid PageId { get; set; }

    public string Name { get; set; } = "";

    /// <summary>One a line as <see cref="Trait"/> writes it; a trait that stands twice has either value.</summary>
    public string Traits { get; set; } = "";

    public string Note { get; set; } = "";

    public int Position { get; set; }

    public DateTimeOffset? RemovedAt { get; set; }

    public uint Version { get; set; }
}

/// <summary>An own drawing or photo of a model; its bytes lie in the file store.</summary>
public sealed class ModelPhoto
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid PageId { get; set; }

    public string Caption { get; set; } = "";

    public string FileHash { get; set; } = "";

    public string ThumbnailHash { get; set; } = "";

    /// <summary>SHA-256 of the file as it came, before it was made fit to keep: the same file brought in again is known by it.</summary>
    public string SourceHash { get; set; } = "";

    public int Width { get; set; }

    public int Height { get; set; }

    public int Position { get; set; }

    public DateTimeOffset AddedAt { get; set; }

    public Guid AddedBy { get; set; }

    public DateTimeOffset? RemovedAt { get; set; }
}
