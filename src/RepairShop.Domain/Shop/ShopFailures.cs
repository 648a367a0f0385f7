using RepairShop.Domain.Results;

namespace RepairShop.Domain.Shop;

public sealed record LocaleUnknown(string Tag)
    : Invalid("Locale", $"“{Tag}” is not a locale this machine knows: choose one of the list, such as en-GB.");

public sealed record TimeZoneUnknown(string Name)
    : Invalid("TimeZone", $"“{Name}” is not a time zone this machine knows: choose one of the list, such as Europe/London.");

public sealed record CountryUnknown(string Code)
    : Invalid("CountryCode", $"“{Code}” is not a country code: choose a country of the list.");

public sealed record PublicAddressWrong(string Typed)
    : Invalid("PublicAddress", $"“{Typed}” is not a web address customers can open: write it like https://book.example.com.");

public sealed record NumberFormatWrong(string Field, string Typed)
    : Invalid(Field, $"“{Typed}” is not a number format: write {{number}} once, or {{number:0000}} for leading zeros, {{year}} if you like, and no / \\ ? # % & +.");

public sealed record NegativeAmount(string Field, decimal Amount)
    : Invalid(Field, $"{Amount} is below zero: an amount asked for is zero or more.");

public sealed record TaxNumberMissing()
    : Invalid("TaxNumber", "A shop registered for tax prints its tax number on invoices: fill it in.");

public sealed record TaxRateNotFound() : NotFound("There is no such tax rate.");

public sealed record TaxRateNameTaken(string Name)
    : Invalid("Name", $"There is already a rate called “{Name}”: give this one another name, or retire the other first.");

public sealed record PercentOutOfRange(decimal Percent)
    : Invalid("Percent", $"{Percent} % is not a tax rate: it lies between 0 and 100.");

public sealed record DefaultRateRetired(string Name)
    : Conflict($"“{Name}” is the rate new lines start with: make another the usual one first, then retire this.");

public sealed record CheckNotFound() : NotFound("There is no such check.");

public sealed record CheckNameTaken(string Name)
    : Invalid("Name", $"“{Name}” is on the list already: change that one, or bring it back if it is retired.");

public sealed record LimitOutOfRange(string Field, double Stops)
    : Invalid(Field, $"{Stops} stops is not a usable limit: choose one above 0 and not above 3.");

public sealed record BoundaryOutOfRange(string Typed)
    : Invalid("Boundary", $"“{Typed}” is not a shutter speed between 10 s and 1/8000: write it like 1/125.");

public sealed record ResolutionOutOfRange(double Milliseconds)
    : Invalid("ResolutionMilliseconds", $"{Milliseconds} ms is not a usable smallest step: it lies above 0 and up to 1000 ms, or stays empty when it is not known.");

public sealed record TextUnknown() : NotFound("There is no such text.");

public sealed record PlaceholderUnknown(string Field, string Placeholder, string Known)
    : Invalid(Field, $"{{{Placeholder}}} has no meaning here: use {Known}, or take it out.");

public sealed record ExemptRateAboveZero(decimal Percent)
    : Invalid("Percent", $"An exempt rate charges nothing: write 0 instead of {Percent} %, or choose a taxed rate.");

public sealed record ExemptionReasonMissing()
    : Invalid("Reason", "The reason is empty: name the rule that exempts you, it is printed on invoices.");

public sealed record ValidUntilBeforeFrom(DateOnly From, DateOnly Until)
    : Invalid("ValidUntil", $"The last day, {Until:d}, lies before the first, {From:d}: choose a later one, or leave it empty.");

public sealed record ProfileNotFound() : NotFound("There is no such tax profile.");

public sealed record ProfileNameMissing() : Invalid("Name", "The name is empty: write how you call this way of taxing, such as “Business abroad”.");

public sealed record ProfileNameTaken(string Name)
    : Invalid("Name", $"There is already a profile called “{Name}”: give this one another name, or retire the other first.");

public sealed record TaxNumberWrong(string Field, string Typed, string Country, bool IsForm) : Invalid(Field, IsForm
    ? $"“{Typed}” has not the form of a tax number of {Country}: look at the letters and how many digits there are."
    : $"The check digits of “{Typed}” are wrong for {Country}: look for a slip of the finger.");

public sealed record CashStepWrong(decimal Step)
    : Invalid("CashStep", $"{Step} is not the value of a coin: write 0.05, 0.1, 0.5 or the like, or 0 for no rounding.");
