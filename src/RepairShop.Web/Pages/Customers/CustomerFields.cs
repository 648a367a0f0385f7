using System.ComponentModel.DataAnnotations;
using RepairShop.Services.Customers;

namespace RepairShop.Web.Pages.Customers;

/// <summary>A customer's fields as typed; used where one is added, changed or booked in.</summary>
public sealed class CustomerFields
{
    [StringLength(200)]
    public string? Name { get; set; }

    [StringLength(200)]
    public string? Company { get; set; }

    [Display(Name = "E-mail"), StringLength(200)]
    public string? Email { get; set; }

    [StringLength(60), DataType(DataType.PhoneNumber)]
    public string? Phone { get; set; }

    [StringLength(200)]
    public string? Street { get; set; }

    [Display(Name = "Second address line"), StringLength(200)]
    public string? Street2 { get; set; }

    [Display(Name = "Postal code"), StringLength(30)]
    public string? PostalCode { get; set; }

    [StringLength(120)]
    public string? City { get; set; }

    [StringLength(120)]
    public string? Region { get; set; }

    [Display(Name = "Country"), StringLength(2)]
    public string? CountryCode { get; set; }

    [Display(Name = "Tax number"), StringLength(60)]
    public string? TaxNumber { get; set; }

    [StringLength(4000), DataType(DataType.MultilineText)]
    public string? Notes { get; set; }

    [Display(Name = "Taxed as")]
    public Guid? TaxProfileId { get; set; }

    public bool NoReminders { get; set; }

    public CustomerInput ToInput() => new()
    {
        Name = Name ?? "",
        Company = Company ?? "",
        Email = Email ?? "",
        Phone = Phone ?? "",
        Street = Street ?? "",
        Street2 = Street2 ?? "",
        PostalCode = PostalCode ?? "",
        City = City ?? "",
        Region = Region ?? "",
        CountryCode = CountryCode ?? "",
        TaxNumber = TaxNumber ?? "",
        Notes = Notes ?? "",
        TaxProfileId = TaxProfileId,
        NoReminders = NoReminders,
    };

    public static CustomerFields Of(CustomerInput input) => new()
    {
        Name = input.Name,
        Company = input.Company,
        Email = input.Email,
        Phone = input.Phone,
        Street = input.Street,
        Street2 = input.Street2,
        PostalCode = input.PostalCode,
        City = input.City,
        Region = input.Region,
        CountryCode = input.CountryCode,
        TaxNumber = input.TaxNumber,
        Notes = input.Notes,
        TaxProfileId = input.TaxProfileId,
        NoReminders = input.NoReminders,
    };
}
