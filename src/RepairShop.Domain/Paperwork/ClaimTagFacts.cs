namespace RepairShop.Domain.Paperwork;

/// <summary>The label tied to the camera, and the page the customer takes home (content after 16 CCR 2721).</summary>
public sealed record ClaimTagFacts : RepairPaperFacts
{
    public required PartyFacts Customer { get; init; }

    /// <summary>What the label shows of the customer: the surname alone.</summary>
    public required string CustomerSurname { get; init; }

    public required DateOnly ReceivedOn { get; init; }

    /// <summary>The repair's page, behind the QR code.</summary>
    public required string RepairUrl { get; init; }

    public string? Complaint { get; init; }
    public string? ConditionOnReceipt { get; init; }
    public IReadOnlyList<string> CameWith { get; init; } = [];
    public decimal? DeclaredValue { get; init; }
    public DateOnly? WantedBy { get; init; }
    public string? Shelf { get; init; }

    /// <summary>One sentence: estimate first, or approved up to an amount.</summary>
    public string? Agreement { get; init; }

    /// <summary>The shop's conditions for taking a camera in, one paragraph each.</summary>
    public IReadOnlyList<string> Conditions { get; init; } = [];
}
