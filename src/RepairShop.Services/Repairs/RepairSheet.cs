using RepairShop.Domain.Cameras;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.StripDown;

namespace RepairShop.Services.Repairs;

/// <summary>The head and the margin of a repair's sheet; its sections bring their own.</summary>
public sealed record RepairSheet
{
    public required Guid Id { get; init; }
    public required string Number { get; init; }
    public required SheetCamera Camera { get; init; }
    public required SheetCustomer Customer { get; init; }
    public required SheetBooking Booking { get; init; }
    public required SheetMargin Margin { get; init; }
    public required IReadOnlyList<PhotoView> Photos { get; init; }
    public required Domain.Repairs.Stage Stage { get; init; }
    public required ClosingTexts Texts { get; init; }

    /// <summary>Number of the repair whose warranty this one falls under; null when none.</summary>
    public string? WarrantyOf { get; init; }
    public DateTimeOffset? ReturnedAt { get; init; }
    public string Carrier { get; init; } = "";
    public string ReturnTracking { get; init; } = "";
    public int EarlierVisits { get; init; }
}

public sealed record SheetCamera(
    Guid Id, string Name, string Format, string BodySerial, string Lens, string LensSerial,
    ShutterKind ShutterKind, string Shutter, string ShutterSerial, IReadOnlyList<string> MarkedSpeeds);

public sealed record SheetCustomer(Guid Id, string Name, string Email, string Phone);

public sealed record SheetBooking(
    DateTimeOffset BookedAt, string BookedBy, string Complaint, IReadOnlyList<string> CameWith, string Condition, decimal? DeclaredValue,
    Arrival ArrivedHow, string ArrivalTracking, DateOnly? WantedBy, string Shelf, string ConsentBy, AnswerWay? ConsentHow, DateTimeOffset? ConsentAt);

/// <summary>What one glances at.</summary>
public sealed record SheetMargin
{
    public required IReadOnlyList<TrailStep> Trail { get; init; }
    public required NextStep Next { get; init; }
    public required DateOnly? Due { get; init; }
    public required bool DueIsPromise { get; init; }
    public required bool IsLate { get; init; }
    public required int MinutesWorked { get; init; }

    /// <summary>From the latest sent offer's labour lines; null when there is none.</summary>
    public required decimal? LowHours { get; init; }
    public required decimal? HighHours { get; init; }

    /// <summary>How much may be invoiced; null while nothing is agreed.</summary>
    public required decimal? ApprovedUpTo { get; init; }

    /// <summary>What the work so far would come to with tax, or what has been invoiced.</summary>
    public required decimal UsedSoFar { get; init; }
    public required bool IsInvoiced { get; init; }
    public required decimal Owed { get; init; }
    public required IReadOnlyList<StillMissing> MissingForReady { get; init; }
    public required IReadOnlyList<StillMissing> MissingForReturn { get; init; }
    public required IReadOnlyList<PassedItem> Passed { get; init; }

    /// <summary>What was taken out of the camera and is not accounted for.</summary>
    public IReadOnlyList<OutItem> StillOut { get; init; } = [];
}

/// <summary>Let pass by the owner.</summary>
public sealed record PassedItem(StillMissing Item, string Reason, string By, DateTimeOffset At);

/// <summary>A photo on a sheet.</summary>
public sealed record PhotoView(Guid Id, string Caption, int Width, int Height, Guid? FindingId);
