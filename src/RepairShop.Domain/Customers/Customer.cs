namespace RepairShop.Domain.Customers;

/// <summary>Who brings cameras and pays for their repair.</summary>
public sealed class Customer
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Name { get; set; } = "";

    public string Company { get; set; } = "";

    public string Email { get; set; } = "";

    public string Phone { get; set; } = "";

    public Address Address { get; set; } = new();

    public string TaxNumber { get; set; } = "";

    /// <summary>How this customer is taxed; null for the shop's usual way.</summary>
    public Guid? TaxProfileId { get; set; }

    public string Notes { get; set; } = "";

    /// <summary>Never asked for late money by a reminder: the owner speaks to them.</summary>
    public bool NoReminders { get; set; }

    public DateTimeOffset CreatedAt { get; set; }

    public uint Version { get; set; }
}

/// <summary>A postal address in the fields an electronic invoice asks for.</summary>
public sealed record Address
{
    public string Street { get; set; } = "";

    public string Street2 { get; set; } = "";

    public string PostalCode { get; set; } = "";

    public string City { get; set; } = "";

    public string Region { get; set; } = "";

    /// <summary>ISO 3166-1 alpha-2 code.</summary>
    public string CountryCode { get; set; } = "";
}
