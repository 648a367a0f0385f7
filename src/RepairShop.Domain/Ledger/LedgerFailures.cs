using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Ledger;

/// <summary>The database's word for it: something dated into a closed month.</summary>
public sealed record MonthIsClosed() : Conflict("That day lies in a month that is closed: choose a later day.");

public sealed record MonthNotOver(DateOnly Month)
    : Conflict($"{Month.ToString("MMMM yyyy", CultureInfo.CurrentCulture)} is not over yet: a month can be closed from the first day of the next.");

public sealed record MonthClosedAlready(DateOnly Month)
    : Conflict($"{Month.ToString("MMMM yyyy", CultureInfo.CurrentCulture)} is closed already, with every month before it.");

public sealed record AccountNumberMissing(string Account) : Conflict($"“{Account}” has no number: write the accountant’s number, or the usual one.");

public sealed record AccountNumberTwice(string Number) : Conflict($"{Number} stands beside two accounts: give each its own number.");
