using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Parts;

public sealed record PartNotFound() : NotFound("This part is not in the stock list.");

public sealed record PartUseNotFound() : NotFound("This part is not on the repair any more.");

/// <param name="Part">Number and name.</param>
/// <param name="OnHand">What is there now.</param>
/// <param name="Asked">What was wanted.</param>
public sealed record NotEnoughOnHand(string Part, decimal OnHand, decimal Asked) : Invalid("Quantity", OnHand == 0
    ? $"There is none of {Part} left, and {StockAmount.Write(Asked)} is wanted: count the drawer and correct the count, or receive new ones first."
    : $"There are only {StockAmount.Write(OnHand)} of {Part} on hand, and {StockAmount.Write(Asked)} is wanted: take fewer, or correct the count first.");

public sealed record PartNumberTaken(string Number)
    : Invalid("Number", $"Part number {Number} is in use already: choose another, or leave it empty for the next free one.");

public sealed record PartNameMissing() : Invalid("Name", "Name is empty: write what the part is.");

public sealed record PartIsRetired(string Part) : Conflict($"{Part} is retired: bring it back first, or take another part.");

public sealed record PartStillOnHand(string Part, decimal OnHand)
    : Conflict($"There are still {StockAmount.Write(OnHand)} of {Part} on hand: use them or correct the count before it is retired.");

public sealed record QuantityOutOfRange(string Name, decimal Quantity)
    : Invalid(Name, $"A quantity of {StockAmount.Write(Quantity)} can't be: write a number above 0, up to 100000, with at most three decimals.");

public sealed record CountOutOfRange(decimal Counted)
    : Invalid("Counted", $"A count of {StockAmount.Write(Counted)} can't be: write how many are there, 0 or more, up to 100000.");

public sealed record CountAgrees(decimal OnHand)
    : Conflict($"The book says {StockAmount.Write(OnHand)} too: there is nothing to correct.");

public sealed record CountReasonMissing() : Invalid("Reason", "Say why the count differs: it is kept in the ledger.");

public sealed record AmountOutOfRange(string Name, decimal Amount)
    : Invalid(Name, $"{StockAmount.Write(Amount)} can't be a price: write 0 or more, below {StockAmount.MostPrice.ToString("N0", CultureInfo.CurrentCulture)}.");

public sealed record PartTextMissing() : Invalid("Text", "Nothing is chosen: take a part from stock, or write what was fitted.");

public sealed record PartNotInStock(string Typed)
    : Invalid("Part", $"“{Typed}” is no part in the stock list: choose one from the list, or add a one-off line.");

public sealed record PartNotClear(string Typed)
    : Invalid("Part", $"“{Typed}” fits more than one part: choose one from the list, or type its number.");

public sealed record FindingOfAnotherRepair() : Invalid("FindingId", "This finding is not one of this repair: choose another, or none.");

/// <summary>Quantities as they stand in a sentence: no trailing zeros.</summary>
public static class StockAmount
{
    public const decimal Largest = 100_000m;

    /// <summary>Prices stay below it: as many as a quantity may be still come to less than a column of money holds.</summary>
    public const decimal MostPrice = 1_000_000_000m;

    public static string Write(decimal quantity) => quantity.ToString("0.####", CultureInfo.CurrentCulture);

    public static bool IsQuantity(decimal quantity) =>
        quantity is > 0 and <= Largest && decimal.Round(quantity, 3) == quantity;

    public static bool IsPrice(decimal amount) => amount is >= 0 and < MostPrice;
}
