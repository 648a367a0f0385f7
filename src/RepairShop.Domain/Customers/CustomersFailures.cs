using RepairShop.Domain.Results;

namespace RepairShop.Domain.Customers;

public sealed record CustomerNotFound() : NotFound("This customer is not in the book: go back to the list and pick one that is.");

public sealed record CustomerNameMissing() : Invalid("Name", "Name is empty: type the customer's name, or at least the company's.");

public sealed record EmailUnusable(string Email) : Invalid("Email", $"E-mail “{Email}” can't be written to: it must look like ada@example.com.");

public sealed record PhoneUnusable(string Phone) : Invalid("Phone", $"Phone “{Phone}” has no digits: type a number, or leave it empty.");

public sealed record CountryUnknown(string Code)
    : Invalid("CountryCode", $"Country “{Code}” is not a two-letter country code: type one such as GB, DE or JP, or leave it empty.");

/// <summary>Somebody like this is in the book already. The person at the counter decides; nothing is merged silently.</summary>
public sealed record CustomerMayBeKnown(IReadOnlyList<KnownCustomer> Known)
    : Conflict(Known.Count == 1
        ? $"{Known[0].Name} is in the book already: pick them below, or say that this is somebody else."
        : $"{Known.Count} customers like this are in the book already: pick one below, or say that this is somebody else.");

/// <param name="Id"></param>
/// <param name="Name">Name, and company where there is one.</param>
/// <param name="Email"></param>
/// <param name="Phone"></param>
/// <param name="City"></param>
/// <param name="Why">What makes them look alike: same e-mail, same phone, similar name.</param>
public sealed record KnownCustomer(Guid Id, string Name, string Email, string Phone, string City, string Why);
