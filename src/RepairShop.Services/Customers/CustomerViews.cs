using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Customers;

public sealed record CustomerView(
    Guid Id, CustomerInput Details, DateTimeOffset CreatedAt, uint Version,
    IReadOnlyList<CustomersCamera> Cameras, IReadOnlyList<CustomersRepair> Repairs, decimal Owed)
{
    /// <summary>Kept for the customer, in the shop's currency.</summary>
    public decimal Credit { get; init; }
}

public sealed record CustomersCamera(Guid Id, string Maker, string Model, string Variant, string BodySerial);

public sealed record CustomersRepair(string Number, string Camera, DateTimeOffset BookedAt, Stage Stage);

/// <summary>One line of the list of customers.</summary>
public sealed record CustomerLine(Guid Id, string Name, string Company, string Email, string Phone, string City);
