using RepairShop.Domain.Customers;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Customers;

/// <summary>A customer as typed.</summary>
public sealed record CustomerInput
{
    public string Name { get; init; } = "";
    public string Company { get; init; } = "";
    public string Email { get; init; } = "";
    public string Phone { get; init; } = "";
    public string Street { get; init; } = "";
    public string Street2 { get; init; } = "";
    public string PostalCode { get; init; } = "";
    public string City { get; init; } = "";
    public string Region { get; init; } = "";
    public string CountryCode { get; init; } = "";
    public string TaxNumber { get; init; } = "";
    public string Notes { get; init; } = "";
    public Guid? TaxProfileId { get; init; }
    public bool NoReminders { get; init; }

    internal void WriteTo(Customer customer)
    {
        customer.Name = TypedText.OneLine(Name);
        customer.Company = TypedText.OneLine(Company);
        customer.Email = TypedText.OneLine(Email);
        customer.Phone = TypedText.OneLine(Phone);
        customer.TaxNumber = TypedText.OneLine(TaxNumber);
        customer.Notes = TypedText.Lines(Notes);
        customer.TaxProfileId = TaxProfileId;
        customer.NoReminders = NoReminders;
        customer.Address.Street = TypedText.OneLine(Street);
        customer.Address.Street2 = TypedText.OneLine(Street2);
        customer.Address.PostalCode = TypedText.OneLine(PostalCode);
        customer.Address.City = TypedText.OneLine(City);
        customer.Address.Region = TypedText.OneLine(Region);
        customer.Address.CountryCode = TypedText.OneLine(CountryCode).ToUpperInvariant();
    }
}
