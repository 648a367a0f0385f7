using RepairShop.Domain.Results;

namespace RepairShop.Domain.Repairs;

/// <summary>Work can't go on with a camera that is no longer here.</summary>
public sealed record CameraHasGoneHome(string Number)
    : Conflict($"The camera of repair {Number} has gone home: book it in again before you work on it.");
