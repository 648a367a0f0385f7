namespace RepairShop.Domain.Paperwork;

/// <summary>
/// What was found, done and measured. ISO/IEC 17025:2017 7.8.2.1 a–p served as the list of what belongs here; the paper never
/// claims that number.
/// </summary>
public sealed record ServiceRecordFacts : RepairPaperFacts
{
    public required PartyFacts Customer { get; init; }
    public required DateOnly IssueDate { get; init; }
    public required DateOnly ReceivedOn { get; init; }
    public required DateOnly WorkedFrom { get; init; }
    public required DateOnly WorkedTo { get; init; }

    /// <summary>Where the work was done, when not at the shop's address.</summary>
    public string? PlaceOfWork { get; init; }

    public required string Complaint { get; init; }
    public required string ConditionOnReceipt { get; init; }

    /// <summary>How it was measured, a sentence or two.</summary>
    public required string Method { get; init; }

    public ShutterSessionFacts? AsReceivedSession { get; init; }
    public ShutterSessionFacts? AfterServiceSession { get; init; }

    /// <summary>Which exposures and how many were taken (the sampling plan).</summary>
    public string? Sampling { get; init; }

    /// <summary>What a marked speed is held against: true binary value or the literal mark.</summary>
    public string? ReferenceRule { get; init; }

    /// <summary>Which limits, and who chose them.</summary>
    public string? LimitsName { get; init; }

    /// <summary>The rule by which the verdicts were given, with its risk; frozen.</summary>
    public string? DecisionRule { get; init; }

    public IReadOnlyList<ShutterRowFacts> ShutterRows { get; init; } = [];

    /// <summary>Recorded light before and after, speed by speed; empty where times were typed.</summary>
    public IReadOnlyList<SpeedTraceFacts> Traces { get; init; } = [];

    public IReadOnlyList<CurtainRowFacts> Curtains { get; init; } = [];
    public IReadOnlyList<FlashRowFacts> Flash { get; init; } = [];
    public IReadOnlyList<CheckRowFacts> Checks { get; init; } = [];
    public IReadOnlyList<GaugeRowFacts> Gauges { get; init; } = [];
    public IReadOnlyList<FindingFacts> Findings { get; init; } = [];
    public IReadOnlyList<PartFittedFacts> PartsFitted { get; init; } = [];
    public IReadOnlyList<string> PartsReturned { get; init; } = [];

    /// <summary>Parts that came out in the strip-down and gave way to others. Empty on papers from before strip-downs were kept.</summary>
    public IReadOnlyList<PartReplacedFacts> PartsReplaced { get; init; } = [];

    /// <summary>What came out and did not go back, and why.</summary>
    public IReadOnlyList<LeftAloneFacts> NotRefitted { get; init; } = [];

    /// <summary>Of a declined repair: how the camera goes back, such as "returned as received, reassembled".</summary>
    public string? Reassembled { get; init; }

    public IReadOnlyList<LeftAloneFacts> LeftAlone { get; init; } = [];

    /// <summary>Additions to, deviations or exclusions from the method.</summary>
    public IReadOnlyList<string> Deviations { get; init; } = [];

    /// <summary>Work by others, marked as theirs.</summary>
    public IReadOnlyList<OutsideWorkFacts> OutsideWork { get; init; } = [];

    public IReadOnlyList<string> Advice { get; init; } = [];
    public IReadOnlyList<Caution> Cautions { get; init; } = [];
    public string? Warranty { get; init; }
    public DateOnly? WarrantyUntil { get; init; }

    /// <summary>Who stands for the record, with the role as printed.</summary>
    public required string AuthorisedBy { get; init; }

    public string? AuthorisedRole { get; init; }
}

/// <summary>How a function check came out.</summary>
public enum CheckOutcome
{
    Fine,
    Faulty,
    NotTested,
    NotFitted,
}

/// <summary>One check before and after; null where that session did not have it.</summary>
public sealed record CheckRowFacts
{
    public required string Name { get; init; }
    public CheckOutcome? AsReceived { get; init; }

    /// <summary>Note and measured value as written then, e.g. "9.2 s, stalls in the cold".</summary>
    public string? AsReceivedNote { get; init; }

    public CheckOutcome? AfterService { get; init; }
    public string? AfterServiceNote { get; init; }
}

/// <summary>A measured quantity with limits and a unit.</summary>
public sealed record GaugeRowFacts
{
    public required string Name { get; init; }
    public required string Unit { get; init; }
    public double? LowerLimit { get; init; }
    public double? UpperLimit { get; init; }
    public double? AsReceived { get; init; }
    public double? AfterService { get; init; }
    public LimitVerdict? Verdict { get; init; }
}

/// <summary>What was found on a component.</summary>
public sealed record FindingFacts
{
    public required string Component { get; init; }

    /// <summary>A word: sound, worn, damaged, contaminated, missing, earlier repair.</summary>
    public required string Condition { get; init; }

    public required string Text { get; init; }
    public string? EvidenceOfEarlierWork { get; init; }
    public string? ActionTaken { get; init; }
    public IReadOnlyList<PhotoFacts> Photos { get; init; } = [];
}

/// <summary>A stored picture, named by the hash of its bytes.</summary>
public sealed record PhotoFacts(string Sha256, string? Caption);

/// <summary>A part that went into the camera.</summary>
public sealed record PartFittedFacts(string? PartNumber, string Name, decimal Quantity, string Unit, string Provenance);

/// <summary>A part that came out and what took its place.</summary>
public sealed record PartReplacedFacts(string Name, int Count, string By, string Provenance, bool OldGoesBack);

/// <summary>What was not touched, and why.</summary>
public sealed record LeftAloneFacts(string What, string Why);

/// <summary>Work done by somebody else.</summary>
public sealed record OutsideWorkFacts(string Who, string What);
