using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Invoices;

public sealed record NoSuchReceipt() : NotFound("There is no such receipt of this customer.");

public sealed record CreditIsNoMoney() : Invalid("Method", "The customer’s credit is no way to receive or give back money: choose how it came or went.");

public sealed record SharedAboveReceived(decimal Shared, decimal Received, string Currency) : Invalid(
    "Amount", $"{Amount.Text(Shared, Currency)} are shared out, but {Amount.Text(Received, Currency)} came in: lower a share, or put the amount right.");

public sealed record RestNotShared(decimal Rest, string Currency) : Invalid(
    "KeepsRest", $"{Amount.Text(Rest, Currency)} are not shared out: write them beside an invoice, or tick that they are kept as credit.");

public sealed record ShareUnusable(int Row, decimal Value, string Currency, int Digits) : Invalid(
    $"Shares[{Row}].Amount", $"{Value.ToString(CultureInfo.CurrentCulture)} can't be a share: write an amount above 0 with at most {Digits} digits after the point, as {Currency} has.");

public sealed record ShareAboveOwed(int Row, string Number, decimal Value, decimal Owed, string Currency) : Invalid(
    $"Shares[{Row}].Amount", $"{Amount.Text(Value, Currency)} is more than the {Amount.Text(Owed, Currency)} still owed on {Number}: write that or less, the rest can be kept as credit.");

public sealed record SharedTwice(int Row, string Number) : Invalid($"Shares[{Row}].Amount", $"{Number} stands twice: write its whole share once.");

public sealed record InvoiceInOtherCurrency(int Row, string Number, string Currency, string Received) : Invalid(
    $"Shares[{Row}].Amount", $"{Number} is in {Currency}, the money in {Received}: record a payment of its own on that invoice.");

public sealed record ReceiptTakenBackAlready() : Conflict("This receipt was taken back already.");

public sealed record PaymentOfReceipt() : Conflict(
    "This payment is a share of money that was paid at once: take the whole receipt back on the customer’s money page, then record it anew.");

public sealed record CreditOfReceiptUsed(decimal LeftOver, decimal Credit, string Currency) : Conflict(
    $"{Amount.Text(LeftOver, Currency)} of this receipt were kept as credit and only {Amount.Text(Credit, Currency)} are still there: take back what they were used for first.");

public sealed record CreditTooSmall(decimal Value, decimal Credit, string Currency)
    : Invalid("Amount", $"{Amount.Text(Value, Currency)} is more than the customer’s credit of {Amount.Text(Math.Max(0, Credit), Currency)}: write that or less.");

/// <summary>The database's own refusal, should two people use the same credit at once.</summary>
public sealed record CreditGone() : Conflict("The customer’s credit was used meanwhile: look at what is left of it.");

public sealed record NoSuchCredit() : NotFound("There is no such entry in this customer’s credit.");

public sealed record CreditEntryOfOther() : Conflict("This entry belongs to an invoice or a receipt: take that one back instead.");

public sealed record WriteOffReasonMissing() : Invalid("Reason", "The reason is empty: say why the money is not to be had, the accountant will ask.");

public sealed record WriteOffAboveOwed(decimal Value, decimal Owed, string Currency)
    : Invalid("Amount", $"{Amount.Text(Value, Currency)} is more than the {Amount.Text(Owed, Currency)} still owed: write that or less.");

public sealed record NoSuchWriteOff() : NotFound("There is no such write-off on this invoice.");

public sealed record WriteOffUndoneAlready() : Conflict("This write-off was undone already.");

/// <summary>The database's own refusal.</summary>
public sealed record CreditBelowWriteOff()
    : Conflict("Part of this invoice is written off: undo the write-off first, then credit it.");

/// <summary>A payment on an invoice that was given up.</summary>
public sealed record WrittenOffMeanwhile(decimal WrittenOff, string Currency) : Conflict(
    $"{Amount.Text(WrittenOff, Currency)} of this invoice are written off: undo the write-off first, then record what came after all.");
