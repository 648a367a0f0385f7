using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Paperwork;

/// <summary>What an invoice or credit note refers to.</summary>
/// <param name="Approvals">Frozen sentences.</param>
/// <param name="Credits">The invoice this one takes back; null for an invoice.</param>
/// <param name="Deposits">Deposit invoices taken off.</param>
/// <param name="CashAccounting">Tax falls due when the money comes in.</param>
internal sealed record InvoiceRefersTo(IReadOnlyList<string> Approvals, Invoice? Credits, IReadOnlyList<DepositFacts> Deposits, bool CashAccounting);

/// <summary>An invoice or credit note as it is printed.</summary>
internal static class InvoiceFactsBuilder
{
    /// <param name="file"></param>
    /// <param name="invoice">With number, dates and sums set.</param>
    /// <param name="totals">Of its lines.</param>
    /// <param name="refers"></param>
    /// <param name="issuedBy"></param>
    public static InvoiceFacts Build(RepairFile file, Invoice invoice, Totals totals, InvoiceRefersTo refers, string issuedBy)
    {
        var credits = refers.Credits;
        var asksMoney = credits is null && totals.Payable > 0;
        var facts = new InvoiceFacts
        {
            PaperNumber = invoice.Number!,
            IssuedAt = invoice.IssuedAt!.Value,
            IssuedBy = issuedBy,
            Shop = CommonFacts.Of(file.Shop),
            RepairNumber = file.Repair.Number,
            Camera = CommonFacts.Of(file.Camera),
            Customer = CommonFacts.Of(file.Customer),
            IssueDate = invoice.IssueDate!.Value,
            SupplyDate = invoice.SupplyDate!.Value,
            CreditsNumber = credits?.Number,
            CreditsIssueDate = credits?.IssueDate,
            CreditReason = credits is null ? null : CommonFacts.OrNull(invoice.Note),
            Complaint = CommonFacts.OrNull(file.Repair.Complaint),
            Approvals = refers.Approvals,
            Currency = invoice.Currency,
            Lines = [],
            Net = 0,
            TaxTotal = 0,
            Total = 0,
            Paid = 0,
            Due = 0,
            Deposits = refers.Deposits,
            DueDate = asksMoney ? invoice.DueDate : null,
            Terms = asksMoney ? Terms(file) : null,
            PaymentReference = asksMoney && file.Shop.Iban.Length > 0 ? CreditorReference.Of(invoice.Number!) : null,
            WarrantyUntil = credits is null && invoice.Basis != InvoiceBasis.Deposit && file.Shop.WarrantyMonths > 0
                ? invoice.SupplyDate.Value.AddMonths(file.Shop.WarrantyMonths)
                : null,
            Notes = [.. Notes(file, invoice, totals, refers)],
        };
        return InvoiceFigures.Fill(facts, invoice, totals);
    }

    private static IEnumerable<string> Notes(RepairFile file, Invoice invoice, Totals totals, InvoiceRefersTo refers)
    {
        var isInvoice = refers.Credits is null;
        if (isInvoice && invoice.Basis == InvoiceBasis.Deposit)
            yield return "This deposit is taken off the final invoice.";
        foreach (var line in isInvoice ? CommonFacts.Points(invoice.Note) : [])
            yield return line;
        if (totals.Gross == 0 && isInvoice)
            yield return refers.Deposits.Count > 0 ? "The deposit covers all of it." : "Nothing is charged for this repair.";
        if (!invoice.TaxRegistered)
            yield return "The workshop is not registered for tax: no tax is charged.";
        if (refers.CashAccounting)
            yield return "Cash accounting"; // Directive 2006/112/EC art. 226 (7a) asks for these words
        foreach (var line in isInvoice ? CommonFacts.Points(file.Shop.InvoiceText) : [])
            yield return line;
    }

    private static string Terms(RepairFile file) => file.Shop.PaymentTermDays == 0
        ? "Due on receipt."
        : $"Due within {file.Shop.PaymentTermDays} days.";
}
