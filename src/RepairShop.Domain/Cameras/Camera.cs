namespace RepairShop.Domain.Cameras;

/// <summary>One camera that has been here; its repairs point at it.</summary>
public sealed class Camera
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid OwnerId { get; set; }

    public string Maker { get; set; } = "";

    public string Model { get; set; } = "";

    public string Variant { get; set; } = "";

    /// <summary>Picture format as people say it: 24 × 36, 6 × 6.</summary>
    public string Format { get; set; } = "";

    public string BodySerial { get; set; } = "";

    public string Lens { get; set; } = "";

    public string LensSerial { get; set; } = "";

    public ShutterKind ShutterKind { get; set; }

    public string Shutter { get; set; } = "";

    public string ShutterSerial { get; set; } = "";

    /// <summary>The speeds engraved on the dial, slowest first, in canonical text: 1, 1/2, 1/125.</summary>
    public string[] MarkedSpeeds { get; set; } = [];

    public string Notes { get; set; } = "";

    public DateTimeOffset CreatedAt { get; set; }

    public uint Version { get; set; }
}

public enum ShutterKind
{
    NotKnown,
    BetweenLens,
    FocalPlane,
    None,
}
