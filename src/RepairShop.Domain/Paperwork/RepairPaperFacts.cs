namespace RepairShop.Domain.Paperwork;

/// <summary>Facts of a paper that is about one repair.</summary>
public abstract record RepairPaperFacts : PaperFacts
{
    /// <summary>The number on the claim tag.</summary>
    public required string RepairNumber { get; init; }

    public required CameraFacts Camera { get; init; }
}
