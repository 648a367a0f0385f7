using RepairShop.Domain.Customers;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Invoices;

/// <summary>What may be done to an invoice in which state. Each refusal has its name.</summary>
public static class InvoiceRules
{
    public static Result MayChange(Invoice invoice) =>
        invoice.IssuedAt is null ? Result.Done : new InvoiceAlreadyIssued(invoice.Number!);

    /// <summary>Of a draft of an invoice or estimate: what it comes to has to fit into the book.</summary>
    public static Result MayKeep(Totals totals, string currency) =>
        Math.Max(Math.Abs(totals.Net), Math.Abs(totals.Payable)) < Amount.Most ? Result.Done : new PaperTooLarge(totals.Payable, currency);

    /// <param name="invoice">With its lines.</param>
    /// <param name="totals">Of its lines.</param>
    /// <param name="alreadyInvoiced">On the same repair with tax, less what was credited.</param>
    /// <param name="ceiling">See <see cref="Estimates.Ceiling"/>; null when nothing was agreed.</param>
    public static Result MayIssue(Invoice invoice, Totals totals, decimal alreadyInvoiced, decimal? ceiling)
    {
        if (invoice.IssuedAt is not null)
            return new InvoiceAlreadyIssued(invoice.Number!);
        if (invoice.Lines.Count == 0)
            return new InvoiceHasNoLines();
        if (totals.Gross < 0)
            return new InvoiceBelowZero(totals.Gross, invoice.Currency);
        if (totals.Gross == 0)
            return Result.Done; // nothing is charged, so nothing needs consent: a warranty repair
        if (ceiling is not { } approved)
            return new NothingApproved(totals.Gross, invoice.Currency);
        return alreadyInvoiced + totals.Payable > approved
            ? new AboveApproved(totals.Payable, alreadyInvoiced, approved, invoice.Currency)
            : Result.Done;
    }

    /// <summary>Reverse charge names a number of the customer's that fits the country; whether it was ever given out is not asked.</summary>
    public static Result MayTax(Invoice invoice, Customer customer, ShopSettings shop)
    {
        if (invoice.Treatment != TaxTreatment.ReverseCharge)
            return Result.Done;
        var country = customer.Address.CountryCode.Length > 0 ? customer.Address.CountryCode : shop.Address.CountryCode;
        return TaxNumbers.Plain(customer.TaxNumber).Length == 0 || TaxNumbers.Check(customer.TaxNumber, country) is TaxNumberVerdict.WrongFormat or TaxNumberVerdict.WrongCheckDigits
            ? new ReverseChargeNeedsNumber(customer.Name.Length > 0 ? customer.Name : customer.Company)
            : Result.Done;
    }

    /// <param name="invoice"></param>
    /// <param name="creditNumber">The credit note that took back the last of it; null while something is left.</param>
    /// <param name="reason"></param>
    /// <param name="takenOffBy">The invoice that takes this deposit off; null where none does.</param>
    public static Result MayCredit(Invoice invoice, string? creditNumber, string reason, string? takenOffBy = null) => invoice switch
    {
        { Kind: InvoiceKind.CreditNote } => new CreditOfCredit(invoice.Number ?? ""),
        { IssuedAt: null } => new InvoiceNotIssued(),
        _ when creditNumber is not null => new AlreadyCredited(invoice.Number!, creditNumber),
        _ when takenOffBy is not null => new DepositTakenOff(invoice.Number!, takenOffBy),
        _ => string.IsNullOrWhiteSpace(reason) ? new CreditReasonMissing() : Result.Done,
    };

    /// <summary>Only what was taken back as a whole is written anew: else it would be owed twice.</summary>
    /// <param name="invoice">With its lines and taxes.</param>
    /// <param name="credits">Its issued credit notes, with theirs.</param>
    public static Result MayReissue(Invoice invoice, IReadOnlyList<Invoice> credits) => invoice switch
    {
        { Kind: InvoiceKind.CreditNote } => new CreditOfCredit(invoice.Number ?? ""),
        { IssuedAt: null } => new InvoiceNotIssued(),
        _ => credits.Count > 0 && CreditLeft.Of(invoice, credits).IsNothing ? Result.Done : new NotTakenBack(invoice.Number!),
    };

    public static Result MayPay(Invoice invoice, decimal amount, DateOnly paidOn, DateOnly today)
    {
        if (MoneyShape(invoice, amount, paidOn, today) is { IsDone: false } shape)
            return shape;
        if (amount > invoice.Balance && invoice.WrittenOff > 0)
            return new WrittenOffMeanwhile(invoice.WrittenOff, invoice.Currency);
        return amount > invoice.Balance ? new PaymentAboveBalance(amount, Math.Max(0, invoice.Balance), invoice.Currency) : Result.Done;
    }

    /// <param name="invoice"></param>
    /// <param name="amount">Positive: what goes back to the customer.</param>
    /// <param name="paidOn"></param>
    /// <param name="today"></param>
    public static Result MayRefund(Invoice invoice, decimal amount, DateOnly paidOn, DateOnly today)
    {
        if (MoneyShape(invoice, amount, paidOn, today) is { IsDone: false } shape)
            return shape;
        return amount > -invoice.Balance ? new RefundAboveOwed(amount, Math.Max(0, -invoice.Balance), invoice.Currency) : Result.Done;
    }

    public static Result MayTakeBack(Invoice invoice, Payment payment, bool takenBackAlready)
    {
        if (payment.TakesBackId is not null)
            return new TakeBackOfTakeBack();
        if (takenBackAlready)
            return new PaymentTakenBackAlready();
        return payment.ReceiptId is not null ? new PaymentOfReceipt() : Result.Done;
    }

    /// <param name="invoice"></param>
    /// <param name="amount">Of the rest, or all of it.</param>
    /// <param name="reason"></param>
    public static Result MayWriteOff(Invoice invoice, decimal amount, string reason)
    {
        if (MoneyShape(invoice, amount, DateOnly.MinValue, DateOnly.MinValue) is { IsDone: false } shape)
            return shape;
        if (amount > invoice.Balance)
            return new WriteOffAboveOwed(amount, Math.Max(0, invoice.Balance), invoice.Currency);
        return string.IsNullOrWhiteSpace(reason) ? new WriteOffReasonMissing() : Result.Done;
    }

    public static Result MayUndo(WriteOff writeOff, bool undoneAlready) =>
        undoneAlready || writeOff.TakesBackId is not null ? new WriteOffUndoneAlready() : Result.Done;

    private static Result MoneyShape(Invoice invoice, decimal amount, DateOnly paidOn, DateOnly today)
    {
        if (invoice.IssuedAt is null)
            return new InvoiceNotIssued();
        if (invoice.Kind == InvoiceKind.CreditNote)
            return new CreditOfCredit(invoice.Number!);
        return AmountShape(amount, invoice.Currency, paidOn, today);
    }

    /// <summary>Money as it can be: above 0, no more digits than the currency has, not in the future.</summary>
    internal static Result AmountShape(decimal amount, string currency, DateOnly paidOn, DateOnly today)
    {
        if (amount <= 0)
            return new PaymentNotPositive(amount);
        var digits = Amount.Digits(currency);
        if (Totals.Round(amount, digits) != amount)
            return new TooManyDecimals(amount, currency, digits);
        if (amount >= Amount.Most)
            return new MoneyTooMuch(amount, currency);
        return paidOn > today ? new PaidInFuture(paidOn) : Result.Done;
    }
}
