using RepairShop.Domain.Results;

namespace RepairShop.Domain.Paperwork;

public sealed record NoSuchPaper() : NotFound("There is no such paper.");

/// <summary>The stored bytes are not the ones that were issued.</summary>
public sealed record PaperDamaged(string Number, string Expected, string Found) : Conflict(
    $"The stored file of {Number} is not what was issued: its SHA-256 is {Found} instead of {Expected}. Restore the file from a backup.");

public sealed record PaperFileMissing(string Number, string Expected)
    : Conflict($"The stored file of {Number} is missing ({Expected}): restore the files folder from a backup.");

public sealed record PaperMadeElsewhere(PaperKind Kind)
    : Conflict($"A paper of the kind “{Kind}” is made where it is sent or issued, not here.");

public sealed record PaperNotMailed(PaperKind Kind) : Conflict($"There is no letter for a paper of the kind “{Kind}”: print it.");

public sealed record NoTrayToLabel(string Number)
    : Conflict($"Repair {Number} has no tray yet, so there is nothing to label: make one under Strip-down, Trays.");
