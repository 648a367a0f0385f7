using RepairShop.Domain.Results;

namespace RepairShop.Domain.Invoices;

/// <summary>An amount of a receipt that is meant for one invoice; 0 for none of it.</summary>
public sealed record ReceiptShare(Guid InvoiceId, decimal Amount);

/// <summary>An invoice with something still owed, as money is shared out over it.</summary>
/// <param name="Id"></param>
/// <param name="Due">Null where no day was set: then the day of issue counts.</param>
/// <param name="Issued"></param>
/// <param name="Number"></param>
/// <param name="Owed">Above 0.</param>
public sealed record OwedInvoice(Guid Id, DateOnly? Due, DateOnly Issued, string Number, decimal Owed);

/// <summary>What may be done with a customer's money that is not for one invoice alone.</summary>
public static class ReceiptRules
{
    /// <summary>Oldest first: each invoice gets what it is owed until nothing is left. Invoices that get nothing are not named; what
    /// no invoice needs is left over.</summary>
    public static IReadOnlyList<ReceiptShare> Propose(decimal amount, IEnumerable<OwedInvoice> owed)
    {
        var shares = new List<ReceiptShare>();
        foreach (var invoice in InOrder(owed))
        {
            var share = Math.Min(amount, invoice.Owed);
            if (share <= 0)
                break;
            shares.Add(new ReceiptShare(invoice.Id, share));
            amount -= share;
        }
        return shares;
    }

    /// <summary>By the day it was due, then of issue, then by number.</summary>
    public static IOrderedEnumerable<OwedInvoice> InOrder(IEnumerable<OwedInvoice> owed) =>
        owed.OrderBy(invoice => invoice.Due ?? invoice.Issued).ThenBy(invoice => invoice.Issued).ThenBy(invoice => invoice.Number, StringComparer.Ordinal);

    /// <param name="receipt">As it would be recorded.</param>
    /// <param name="shares"></param>
    /// <param name="invoices">Those the shares name, of whichever customer.</param>
    /// <param name="keepsRest">What is not shared out is meant to be kept as credit.</param>
    /// <param name="today"></param>
    public static Result MayReceive(Receipt receipt, IReadOnlyList<ReceiptShare> shares, IReadOnlyList<Invoice> invoices, bool keepsRest, DateOnly today)
    {
        if (MoneyShape(receipt.Method, receipt.Amount, receipt.Currency, receipt.PaidOn, today) is { IsDone: false } shape)
            return shape;
        for (var row = 0; row < shares.Count; row++)
        {
            if (MayShare(receipt, row, shares, invoices) is { IsDone: false } refused)
                return refused;
        }
        var rest = receipt.Amount - shares.Sum(share => share.Amount);
        if (rest < 0)
            return new SharedAboveReceived(receipt.Amount - rest, receipt.Amount, receipt.Currency);
        return rest > 0 && !keepsRest ? new RestNotShared(rest, receipt.Currency) : Result.Done;
    }

    /// <param name="receipt"></param>
    /// <param name="takenBackAlready"></param>
    /// <param name="leftOver">What of it was kept as credit.</param>
    /// <param name="credit">What the customer has now.</param>
    public static Result MayTakeBack(Receipt receipt, bool takenBackAlready, decimal leftOver, decimal credit)
    {
        if (receipt.TakesBackId is not null)
            return new TakeBackOfTakeBack();
        if (takenBackAlready)
            return new ReceiptTakenBackAlready();
        return leftOver > credit ? new CreditOfReceiptUsed(leftOver, credit, receipt.Currency) : Result.Done;
    }

    /// <summary>For use on an invoice, for giving back, for a fee.</summary>
    public static Result MayUseCredit(decimal amount, decimal credit, string currency) =>
        amount > credit ? new CreditTooSmall(amount, credit, currency) : Result.Done;

    public static Result MayPayBack(PaymentMethod method, decimal amount, decimal credit, string currency, DateOnly paidOn, DateOnly today) =>
        MoneyShape(method, amount, currency, paidOn, today) is { IsDone: false } shape ? shape : MayUseCredit(amount, credit, currency);

    /// <summary>Money comes from outside or goes there: credit that pays for credit would be gone, or come from nothing.</summary>
    private static Result MoneyShape(PaymentMethod method, decimal amount, string currency, DateOnly paidOn, DateOnly today) =>
        method == PaymentMethod.CustomerCredit ? new CreditIsNoMoney() : InvoiceRules.AmountShape(amount, currency, paidOn, today);

    private static Result MayShare(Receipt receipt, int row, IReadOnlyList<ReceiptShare> shares, IReadOnlyList<Invoice> invoices)
    {
        var share = shares[row];
        if (share.Amount == 0)
            return Result.Done; // an empty field beside an invoice
        var invoice = invoices.FirstOrDefault(one => one.Id == share.InvoiceId);
        if (invoice is null || invoice.CustomerId != receipt.CustomerId || invoice.IssuedAt is null || invoice.Kind == InvoiceKind.CreditNote)
            return new NoSuchInvoice();
        if (shares.Take(row).Any(other => other.InvoiceId == share.InvoiceId))
            return new SharedTwice(row, invoice.Number!);
        if (invoice.Currency != receipt.Currency)
            return new InvoiceInOtherCurrency(row, invoice.Number!, invoice.Currency, receipt.Currency);
        var digits = Amount.Digits(receipt.Currency);
        if (share.Amount < 0 || Totals.Round(share.Amount, digits) != share.Amount)
            return new ShareUnusable(row, share.Amount, receipt.Currency, digits);
        return share.Amount > invoice.Balance
            ? new ShareAboveOwed(row, invoice.Number!, share.Amount, Math.Max(0, invoice.Balance), receipt.Currency)
            : Result.Done;
    }
}
