using RepairShop.Domain.Results;

namespace RepairShop.Domain.Checks;

public sealed record CheckNamedTwice(string Name) : Conflict($"“{Name}” is on the list already: write its outcome there.");

/// <param name="Row">The row's input name, such as Rows[3].Value.</param>
/// <param name="Check">The check's name.</param>
public sealed record CheckValueNotFinite(string Row, string Check) : Invalid(Row, $"The value of “{Check}” is too large to be a measurement: check it.");

public sealed record CheckNoteTooLong(string Row, string Check)
    : Invalid(Row, $"The note on “{Check}” is longer than 500 characters: shorten it, or write a finding.");
