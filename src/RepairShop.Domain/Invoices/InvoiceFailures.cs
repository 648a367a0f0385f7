using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Invoices;

public sealed record NoSuchInvoice() : NotFound("There is no such invoice.");

public sealed record InvoiceDraftWaiting() : Conflict("This repair has an invoice draft already: change that one, or throw it away first.");

public sealed record InvoiceAlreadyIssued(string Number)
    : Conflict($"{Number} is issued and stays as it is: credit it and write a new invoice if it is wrong.");

public sealed record InvoiceNotIssued() : Conflict("This invoice is still a draft: issue it first.");

public sealed record InvoiceHasNoLines() : Conflict("This invoice has no lines: add at least one before you issue it.");

public sealed record InvoiceBelowZero(decimal Total, string Currency)
    : Conflict($"This invoice comes to {Amount.Text(Total, Currency)}: an invoice can't be below zero, use a credit note to give money back.");

/// <summary>Model: California Code of Regulations, title 16, § 2722: no charge above the approved amount without the
/// customer's further consent.</summary>
/// <param name="Total">This invoice with tax.</param>
/// <param name="AlreadyInvoiced">On the same repair, less what was credited.</param>
/// <param name="Approved">What the customer agreed to last.</param>
/// <param name="Currency">ISO 4217.</param>
public sealed record AboveApproved(decimal Total, decimal AlreadyInvoiced, decimal Approved, string Currency) : Conflict(
    (AlreadyInvoiced == 0
        ? $"This invoice comes to {Amount.Text(Total, Currency)}"
        : $"This invoice comes to {Amount.Text(Total, Currency)} and {Amount.Text(AlreadyInvoiced, Currency)} are invoiced already")
    + $", but the customer approved {Amount.Text(Approved, Currency)}: record further consent first, or lower the invoice.");

public sealed record NothingApproved(decimal Total, string Currency) : Conflict(
    $"This invoice comes to {Amount.Text(Total, Currency)}, but the customer has not approved any amount yet: record the answer to an estimate or a consent first.");

public sealed record NoApprovedEstimate()
    : Conflict("No estimate of this repair was approved: start the invoice from the hours worked and parts used instead.");

public sealed record EstimateNotDeclined()
    : Conflict("The strip-down charge is for a declined estimate: record that the customer declined it first.");

public sealed record NoStripDownCharge() : Conflict("The declined estimate names no strip-down charge: there is nothing to invoice for it.");

public sealed record CreditOfCredit(string Number) : Conflict($"{Number} is a credit note: only an invoice can be credited.");

public sealed record AlreadyCredited(string Number, string CreditNumber) : Conflict($"{Number} was credited by {CreditNumber} already: it can't be credited twice.");

public sealed record NotTakenBack(string Number) : Conflict($"{Number} is not taken back as a whole: credit all that is left of it first, then write it anew.");

public sealed record CreditAboveRate(string Rate, decimal Percent, decimal Asked, decimal Left, string Currency) : Conflict(
    $"{Amount.Text(Asked, Currency)}{(Rate.Length == 0 ? "" : $" at {Rate} {Percent.ToString("0.####", CultureInfo.CurrentCulture)} %")} is more than the {Amount.Text(Left, Currency)} not given back yet: write that or less.");

public sealed record CreditAboveLine(string Line, decimal Asked, decimal Left, string Unit) : Conflict(
    $"“{Line}” has {Left.ToString("0.####", CultureInfo.CurrentCulture)} {Unit} not given back yet, not {Asked.ToString("0.####", CultureInfo.CurrentCulture)}: write a quantity above 0 and not above that.");

public sealed record CreditAmountNotPositive(decimal Value)
    : Conflict($"The amount can't be {Value.ToString(CultureInfo.CurrentCulture)}: write an amount above 0, or leave it empty.");

public sealed record CreditAmountTooFine(decimal Value, string Currency) : Conflict(
    $"{Value.ToString(CultureInfo.CurrentCulture)} has more digits after the point than {Currency} has: write what is really given back.");

public sealed record CreditQuantityTooFine(string Line, decimal Asked) : Conflict(
    $"{Asked.ToString(CultureInfo.CurrentCulture)} of “{Line}” has more than four digits after the point: write fewer, or an amount instead.");

public sealed record CreditOfNothing() : Conflict("This credit note comes to nothing: write more of a line, or an amount.");

public sealed record CreditLineUnknown() : NotFound("There is no such line on this invoice.");

/// <summary>The database's own refusal, should two people credit one invoice at once.</summary>
public sealed record CreditAboveInvoice() : Conflict("Together the credit notes would be more than the invoice: look at what was given back already.");

public sealed record DepositAmountMissing() : Invalid("Deposit", "The deposit is empty: write the amount you ask for, above 0.");

public sealed record DepositOfDeposit() : Conflict("This draft is a deposit itself: issue it first, the next invoice takes it off.");

/// <summary>Given back as well it would be given back twice.</summary>
public sealed record DepositTakenOff(string Number, string By) : Conflict($"{Number} is a deposit that {By} takes off: credit {By} first.");

public sealed record CreditReasonMissing() : Invalid("Reason", "The reason is empty: say why the invoice is taken back, it is printed on the credit note.");

public sealed record PaymentNotPositive(decimal Value)
    : Invalid("Amount", $"The amount can't be {Value.ToString(CultureInfo.CurrentCulture)}: write an amount above 0.");

public sealed record PaymentAboveBalance(decimal Value, decimal Balance, string Currency)
    : Invalid("Amount", $"{Amount.Text(Value, Currency)} is more than the {Amount.Text(Balance, Currency)} still owed: write what was paid for this invoice.");

public sealed record RefundAboveOwed(decimal Value, decimal Owed, string Currency)
    : Invalid("Amount", $"{Amount.Text(Value, Currency)} is more than the {Amount.Text(Owed, Currency)} that has to go back: write that or less.");

public sealed record TooManyDecimals(decimal Value, string Currency, int Digits) : Invalid(
    "Amount", $"{Value.ToString(CultureInfo.CurrentCulture)} has more digits after the point than {Currency} has: write {Math.Round(Value, Digits, MidpointRounding.AwayFromZero).ToString(CultureInfo.CurrentCulture)}, if that is what was paid.");

public sealed record MoneyTooMuch(decimal Value, string Currency) : Invalid(
    "Amount", $"{Amount.Text(Value, Currency)} is more than the book can hold: write less than {Amount.Text(Amount.Most, Currency)}.");

/// <summary>The lines together, or with tax.</summary>
public sealed record PaperTooLarge(decimal Total, string Currency) : Conflict(
    $"This comes to {Amount.Text(Total, Currency)}, more than the book can hold: look for a quantity or price with a digit too many.");

public sealed record PaidInFuture(DateOnly PaidOn)
    : Invalid("PaidOn", $"Paid on {PaidOn.ToString("d", CultureInfo.CurrentCulture)} lies in the future: choose today or earlier.");

public sealed record NoSuchPayment() : NotFound("There is no such payment on this invoice.");

public sealed record PaymentTakenBackAlready() : Conflict("This payment was taken back already.");

public sealed record TakeBackOfTakeBack() : Conflict("This line takes a payment back itself: record the payment anew instead.");

/// <summary>Directive 2006/112/EC art. 226 (4): where the customer accounts for the tax, the invoice names the customer's number.</summary>
public sealed record ReverseChargeNeedsNumber(string Customer) : Conflict(
    $"Reverse charge needs the customer's tax number, and {Customer} has none that fits the country: write it on the customer's page, or choose another tax profile.");

public sealed record ProfileNotValidOn(DateOnly Day)
    : Invalid("TaxProfileId", $"This tax profile may not be used for work done on {Day.ToString("d", CultureInfo.CurrentCulture)}: choose another.");

public sealed record ChangeUnreadable(int Row, string Field, string Typed) : Invalid(
    $"{Field}[{Row}].Change", $"“{Typed}” is no discount: write an amount, a percentage such as 10 %, or with a plus in front a charge such as +5.");

public sealed record ChangeWithoutText(int Row)
    : Invalid($"Changes[{Row}].Text", "Say what this discount or charge is for: it is printed.");

public sealed record DiscountAboveLine(int Row)
    : Invalid($"Lines[{Row}].Change", "A discount can't be more than the line comes to.");
