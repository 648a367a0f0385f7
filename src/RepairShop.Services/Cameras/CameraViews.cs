using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Cameras;

public sealed record CameraView(
    Guid Id, string Name, CameraInput Details, Guid OwnerId, string Owner, uint Version, IReadOnlyList<CameraVisit> History);

/// <summary>One earlier repair of a camera.</summary>
public sealed record CameraVisit(
    string Number, DateTimeOffset BookedAt, string Complaint, Stage Stage, DateTimeOffset? ReturnedAt, string Customer);

/// <summary>One line of the list of cameras.</summary>
public sealed record CameraLine(
    Guid Id, string Maker, string Model, string Variant, string BodySerial, string Lens, Guid OwnerId, string Owner);

/// <summary>A repair whose warranty still runs.</summary>
public sealed record WarrantyOffer(Guid RepairId, string Number, DateOnly ReturnedOn, DateOnly Until);
