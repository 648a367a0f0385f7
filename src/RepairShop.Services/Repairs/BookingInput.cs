using RepairShop.Domain.Repairs;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;

namespace RepairShop.Services.Repairs;

/// <summary>All that is said at the counter when a camera comes in.</summary>
public sealed record BookingInput
{
    /// <summary>Made with the form; it becomes the repair's id, so that a form sent twice books once.</summary>
    public required Guid FormKey { get; init; }

    /// <summary>A customer in the book; null for the new one in <see cref="NewCustomer"/>.</summary>
    public Guid? CustomerId { get; init; }

    public CustomerInput NewCustomer { get; init; } = new();

    public bool CustomerIsSomebodyElse { get; init; }

    /// <summary>A camera in the book; null for the new one in <see cref="NewCamera"/>.</summary>
    public Guid? CameraId { get; init; }

    public CameraInput NewCamera { get; init; } = new();

    public bool CameraIsAnotherOne { get; init; }

    /// <summary>The camera in the book belongs to this customer from now on.</summary>
    public bool CameraHasNewOwner { get; init; }

    public Guid? WarrantyOfId { get; init; }

    public RepairInput Facts { get; init; } = new();
}

/// <summary>The booking facts of a repair, which may be put right later.</summary>
public sealed record RepairInput
{
    public string Complaint { get; init; } = "";
    public IReadOnlyList<string> CameWith { get; init; } = [];
    public string ConditionOnReceipt { get; init; } = "";
    public decimal? DeclaredValue { get; init; }
    public Arrival ArrivedHow { get; init; }
    public string ArrivalTracking { get; init; } = "";
    public DateOnly? WantedBy { get; init; }
    public DateOnly? PromisedFor { get; init; }
    public bool EstimateFirst { get; init; } = true;
    public decimal? PreApprovedLimit { get; init; }
    public string ConsentBy { get; init; } = "";
    public AnswerWay? ConsentHow { get; init; }

    /// <summary>The shop's day on which the customer agreed; today when empty.</summary>
    public DateOnly? ConsentOn { get; init; }

    public string Shelf { get; init; } = "";
}

/// <param name="Number">What goes on the claim tag.</param>
/// <param name="WasThere">This very form had been sent before; nothing was booked twice.</param>
public sealed record Booked(Guid RepairId, string Number, bool WasThere);

/// <summary>What the next booking begins with, from the last one this person made, and what the shop has written before.</summary>
public sealed record Remembered(
    Arrival ArrivedHow, bool EstimateFirst, AnswerWay? ConsentHow, string Format,
    IReadOnlyList<string> Makers, IReadOnlyList<string> Models, IReadOnlyList<string> Shelves, IReadOnlyList<string> Shutters);
