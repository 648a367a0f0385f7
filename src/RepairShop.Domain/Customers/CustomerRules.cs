using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Customers;

/// <summary>What a customer's entry must hold to be of use.</summary>
public static class CustomerRules
{
    /// <summary>The first rule the entry breaks; done when none.</summary>
    public static Result Check(Customer customer)
    {
        if (customer.Name.Length == 0 && customer.Company.Length == 0)
            return new CustomerNameMissing();
        if (customer.Email.Length > 0 && !LooksLikeEmail(customer.Email))
            return new EmailUnusable(customer.Email);
        if (customer.Phone.Length > 0 && !customer.Phone.Any(char.IsDigit))
            return new PhoneUnusable(customer.Phone);
        var country = customer.Address.CountryCode;
        if (country.Length > 0 && (country.Length != 2 || !country.All(char.IsAsciiLetterUpper)))
            return new CountryUnknown(country);
        if (TaxNumbers.Plain(customer.TaxNumber).Length == 0)
            return Result.Done;
        var verdict = TaxNumbers.Check(customer.TaxNumber, country);
        return verdict is TaxNumberVerdict.WrongFormat or TaxNumberVerdict.WrongCheckDigits
            ? new TaxNumberWrong(nameof(customer.TaxNumber), customer.TaxNumber, country, verdict == TaxNumberVerdict.WrongFormat)
            : Result.Done;
    }

    /// <summary>One @ with something before it and a dotted name behind it: enough to catch slips; only a sent mail proves more.</summary>
    private static bool LooksLikeEmail(string email)
    {
        var at = email.IndexOf('@', StringComparison.Ordinal);
        return at > 0 && at == email.LastIndexOf('@') && !email.Any(char.IsWhiteSpace)
            && email.IndexOf('.', at) is var dot && dot > at + 1 && dot < email.Length - 1;
    }
}
