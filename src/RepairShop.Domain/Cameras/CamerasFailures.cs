using RepairShop.Domain.Results;

namespace RepairShop.Domain.Cameras;

public sealed record CameraNotFound() : NotFound("This camera is not in the book: go back to the list and pick one that is.");

public sealed record CameraUnnamed() : Invalid("Model", "Maker and model are both empty: type what stands on the camera.");

public sealed record MarkedSpeedUnreadable(string Text)
    : Invalid("MarkedSpeeds", $"“{Text}” can't be read as a marked speed: write the dial as 1 1/2 1/4 … 1/500 B, with blanks between.");

public sealed record CameraBelongsToAnother(string Camera, string Owner)
    : Conflict($"{Camera} belongs to {Owner}: pick that customer, or say that the camera has a new owner.");

/// <summary>A camera with this maker and body serial is in the book.</summary>
public sealed record CameraMayBeKnown(KnownCamera Known)
    : Conflict($"{Known.Name}, body {Known.BodySerial}, is in the book already, owned by {Known.Owner}: pick it below, or say that this is another one.");

public sealed record KnownCamera(Guid Id, string Name, string BodySerial, Guid OwnerId, string Owner);
