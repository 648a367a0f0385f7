namespace RepairShop.Domain.Paperwork;

/// <summary>
/// The light of one exposure as a line to draw. Times are milliseconds from the 50 % crossing of its opening, so that two exposures can be laid
/// over each other; values are shares of its own level, 0 closed and 1 open.
/// </summary>
public sealed record TraceFacts
{
    public required IReadOnlyList<float> Milliseconds { get; init; }

    public required IReadOnlyList<float> Values { get; init; }

    /// <summary>First opening, opening 10, 50, 90 %, closing 90, 50, 10 %, complete closing, on the same clock.</summary>
    public required IReadOnlyList<double> Crossings { get; init; }

    /// <summary>The fully open level on the same scale; null where it is not known.</summary>
    public double? OpenLevel { get; init; }
}

/// <summary>One exposure before and one after service at the same marked speed, to be laid over each other.</summary>
public sealed record SpeedTraceFacts
{
    /// <summary>As the dial says it: 1/125, ½, 1 s.</summary>
    public required string MarkedSpeed { get; init; }

    public TraceFacts? AsReceived { get; init; }

    public TraceFacts? AfterService { get; init; }
}
