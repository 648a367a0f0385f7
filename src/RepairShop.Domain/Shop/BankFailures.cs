using RepairShop.Domain.Results;

namespace RepairShop.Domain.Shop;

/// <summary>Not a code of ISO 4217 that one can be paid in.</summary>
public sealed record UnknownCurrency(string Code)
    : Invalid("Currency", $"“{Code}” is not a currency code: use the three letters of ISO 4217, such as EUR, GBP or USD.");

/// <summary>Other characters than letters and digits, or no country and check digits in front.</summary>
public sealed record IbanNotWellFormed(string Typed)
    : Invalid("Iban", $"“{Typed}” is not an IBAN: it starts with two letters for the country and two check digits, and goes on with letters and digits only.");

/// <summary>No country of the IBAN registry.</summary>
public sealed record IbanCountryUnknown(string Value, string Country)
    : Invalid("Iban", $"“{Value}” is not an IBAN: no country with IBANs has the code “{Country}”. Give another account in the payment text instead.");

/// <summary>Too short or too long for its country.</summary>
public sealed record IbanLengthWrong(string Value, string Country, int Expected, int Actual)
    : Invalid("Iban", $"“{Value}” has {Actual} characters, but an IBAN of {Country} has {Expected}: check it against the bank's letter.");

/// <summary>The check digits do not fit: a digit is wrong or two have changed places.</summary>
public sealed record IbanCheckFailed(string Value)
    : Invalid("Iban", $"The check digits of “{Value}” do not fit the rest: a digit is wrong or two have changed places. Check it against the bank's letter.");
