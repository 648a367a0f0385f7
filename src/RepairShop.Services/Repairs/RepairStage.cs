using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Repairs;

/// <summary>A row of the view <c>repair_stages</c>: where each repair stands, computed by the database from the same facts
/// as <see cref="StageFacts.Stage"/>.</summary>
public sealed class RepairStage
{
    public Guid RepairId { get; init; }

    public Stage Stage { get; init; }

    /// <summary>When the latest sent estimate went out; null when none did.</summary>
    public DateTimeOffset? EstimateSentAt { get; init; }

    /// <summary>Until when the latest sent estimate stands.</summary>
    public DateOnly? EstimateValidUntil { get; init; }
}
