using System.Globalization;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Estimates;

public sealed record NoSuchEstimate(int Revision) : NotFound($"This repair has no estimate revision {Revision}.");

public sealed record EstimateNotDraft(int Revision)
    : Conflict($"Revision {Revision} was sent and stays as it is: start a new revision to change the offer.");

public sealed record EstimateNotSent(int Revision)
    : Conflict($"Revision {Revision} is a draft the customer has not seen: send it first, then record the answer.");

public sealed record EstimateAlreadyAnswered(int Revision, EstimateAnswer Answer, string By, DateTimeOffset At) : Conflict(
    $"Revision {Revision} was {(Answer == EstimateAnswer.Approved ? "approved" : "declined")} by {By} on {At.ToString("d", CultureInfo.CurrentCulture)} already: "
    + "start a new revision if the offer changes.");

public sealed record EstimateLapsed(int Revision, DateOnly ValidUntil) : Conflict(
    $"Revision {Revision} was valid until {ValidUntil.ToString("d", CultureInfo.CurrentCulture)} and has lapsed: send it again as a new revision with a new date.");

public sealed record EstimateSuperseded(int Revision, int Latest)
    : Conflict($"Revision {Latest} was sent after revision {Revision}: record the answer to revision {Latest}.");

public sealed record EstimateHasNoLines() : Conflict("This estimate has no lines: add at least one before you send it.");

public sealed record EstimateSaysTheSame(int Revision)
    : Conflict($"Revision {Revision} was sent and says the same in every word and figure: change something before you send a new one.");

public sealed record EstimateDraftWaiting(int Revision)
    : Conflict($"Revision {Revision} is a draft already: change that one, or throw it away first.");

public sealed record RepairHasGoneHome(string Number)
    : Conflict($"Repair {Number} has been returned: book the camera in again for a new offer.");

public sealed record ValidUntilPassed(DateOnly ValidUntil)
    : Invalid("ValidUntil", $"Valid until {ValidUntil.ToString("d", CultureInfo.CurrentCulture)} lies in the past: choose today or later.");

public sealed record StripDownChargeOutOfRange(decimal Charge)
    : Invalid("StripDownCharge", $"The strip-down charge can't be {Charge.ToString(CultureInfo.CurrentCulture)}: write 0 for none, or an amount below {Amount.Most.ToString("N0", CultureInfo.CurrentCulture)}.");

public sealed record LineWithoutText(int Row) : Invalid($"Lines[{Row}].Text", $"Line {Row + 1} has a price or quantity but no text: say what it is for.");

public sealed record LineNumberOutOfRange(int Row, string Property, string Words, decimal Value, decimal Most) : Invalid(
    $"Lines[{Row}].{Property}", $"{Words} in line {Row + 1} can't be {Value.ToString(CultureInfo.CurrentCulture)}: write 0 or more, below {Most.ToString("N0", CultureInfo.CurrentCulture)}.");

public sealed record LowAboveHigh(int Row, decimal Low, decimal High) : Invalid(
    $"Lines[{Row}].HighQuantity",
    $"In line {Row + 1} at most ({High.ToString(CultureInfo.CurrentCulture)}) is less than at least ({Low.ToString(CultureInfo.CurrentCulture)}): swap them.");

public sealed record NoSuchTaxRate(int Row) : Invalid($"Lines[{Row}].TaxRate", $"The tax rate in line {Row + 1} is not one of the shop's: choose one from the list.");

public sealed record AnswererMissing() : Invalid("By", "Who answered is empty: write the name.");

public sealed record ConsentAmountOutOfRange(decimal UpTo)
    : Invalid("UpTo", $"The new limit can't be {UpTo.ToString(CultureInfo.CurrentCulture)}: write an amount above 0 and below {Amount.Most.ToString("N0", CultureInfo.CurrentCulture)}.");

/// <summary>Further consent means more; less is a new revision.</summary>
public sealed record ConsentNotAbove(decimal UpTo, decimal Approved, string Currency) : Invalid(
    "UpTo", $"{Amount.Text(UpTo, Currency)} is not more than the {Amount.Text(Approved, Currency)} approved already: write the new limit, not the difference.");

public sealed record ConsentGiverMissing() : Invalid("GivenBy", "Who agreed is empty: write the name.");

/// <summary>One sentence for every link that does not work, so that nobody learns which ones ever did.</summary>
public sealed record AnswerLinkDead() : NotFound(AnswerLinkDead.Sentence)
{
    public const string Sentence = "This link is not valid, or not any more. Please call or write to the workshop.";
}

public sealed record AnswerWayNotByHand(AnswerWay How)
    : Invalid("How", $"“{How}” is recorded by the link itself: choose how the customer told you.");
