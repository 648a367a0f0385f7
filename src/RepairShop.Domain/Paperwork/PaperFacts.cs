namespace RepairShop.Domain.Paperwork;

/// <summary>
/// What a paper says, frozen at issue. Flat on purpose: no entity, no lookup, no clock, so that the same facts give the same
/// paper in ten years. Money is decimal in the paper's currency and already rounded; days are plain dates in the shop's zone;
/// moments are UTC. Nothing here is formatted but a sentence that was frozen as a sentence.
/// </summary>
public abstract record PaperFacts
{
    /// <summary>The unique number printed on every page.</summary>
    public required string PaperNumber { get; init; }

    /// <summary>UTC. Also the creation date inside the PDF.</summary>
    public required DateTimeOffset IssuedAt { get; init; }

    /// <summary>Who issued it, as the paper shows the name.</summary>
    public required string IssuedBy { get; init; }

    public required ShopFacts Shop { get; init; }
}

/// <summary>The shop as it was on the day of issue.</summary>
public sealed record ShopFacts
{
    public required string Name { get; init; }

    /// <summary>Street, town, and so on, one line each, without the country's code.</summary>
    public required IReadOnlyList<string> AddressLines { get; init; }

    /// <summary>ISO 3166-1 alpha-2. Decides the paper's size (Letter in US, CA, MX) and whether a SEPA QR code makes sense.</summary>
    public required string Country { get; init; }

    public string? TaxNumber { get; init; }

    /// <summary>In a public register, or as a registered repair dealer.</summary>
    public string? RegistrationNumber { get; init; }

    /// <summary>The same address field by field; null on papers issued before it was kept.</summary>
    public AddressFacts? Address { get; init; }

    public string? Email { get; init; }
    public string? Phone { get; init; }
    public string? Website { get; init; }
    public string? Iban { get; init; }
    public string? Bic { get; init; }

    /// <summary>Other ways to pay in the shop's words, when there is no IBAN or beside it.</summary>
    public string? BankDetails { get; init; }

    /// <summary>BCP 47 tag: how dates and numbers are written.</summary>
    public required string Locale { get; init; }

    /// <summary>ISO 4217.</summary>
    public required string Currency { get; init; }

    /// <summary>IANA zone in which the paper's moments are written.</summary>
    public required string TimeZone { get; init; }
}

/// <summary>An address in the fields an electronic invoice asks for; empty where there is nothing.</summary>
public sealed record AddressFacts(string Street, string Street2, string PostalCode, string City, string Region);

/// <summary>Whom a paper is made out to.</summary>
public sealed record PartyFacts
{
    public required string Name { get; init; }
    public IReadOnlyList<string> AddressLines { get; init; } = [];

    /// <summary>ISO 3166-1 alpha-2.</summary>
    public string? Country { get; init; }

    /// <summary>The company, which the address lines begin with; then <see cref="Name"/> is a person there.</summary>
    public string? Company { get; init; }

    /// <summary>The same address field by field; null on papers issued before it was kept.</summary>
    public AddressFacts? Address { get; init; }

    public string? TaxNumber { get; init; }
    public string? Email { get; init; }
    public string? Phone { get; init; }
}

/// <summary>The thing itself, unmistakable: maker, model and every serial number known.</summary>
public sealed record CameraFacts
{
    public required string Maker { get; init; }
    public required string Model { get; init; }
    public string? Variant { get; init; }
    public string? Format { get; init; }
    public string? BodySerial { get; init; }
    public string? Lens { get; init; }
    public string? LensSerial { get; init; }
    public string? Shutter { get; init; }
    public string? ShutterSerial { get; init; }

    /// <summary>A word: between-lens, focal-plane.</summary>
    public string? ShutterKind { get; init; }
}
