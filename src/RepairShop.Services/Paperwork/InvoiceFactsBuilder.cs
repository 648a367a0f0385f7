using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Paperwork;

/// <summary>An invoice or credit note as it is printed.</summary>
internal static class InvoiceFactsBuilder
{
    /// <param name="file"></param>
    /// <param name="invoice">With number, dates and sums set.</param>
    /// <param name="totals">Of its lines.</param>
    /// <param name="approvals">Frozen sentences.</param>
    /// <param name="credits">The invoice this one takes back; null for an invoice.</param>
    /// <param name="issuedBy"></param>
    public static InvoiceFacts Build(
        RepairFile file, Invoice invoice, Totals totals, IReadOnlyList<string> approvals, Invoice? credits, string issuedBy) => new()
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
            Approvals = approvals,
            Currency = invoice.Currency,
            Lines = [.. invoice.Lines.OrderBy(line => line.Position).Select((line, index) => Line(line, totals.LineAmounts[index]))],
            PricesIncludeTax = invoice.PricesIncludeTax,
            Net = totals.Net,
            Taxes = CommonFacts.Of(totals.Taxes),
            TaxTotal = totals.Tax,
            Total = totals.Gross,
            Paid = 0,
            Due = totals.Gross,
            DueDate = credits is null && totals.Gross > 0 ? invoice.DueDate : null,
            Terms = credits is null && totals.Gross > 0 ? Terms(file) : null,
            WarrantyUntil = credits is null && file.Shop.WarrantyMonths > 0
                ? invoice.SupplyDate.Value.AddMonths(file.Shop.WarrantyMonths)
                : null,
            Notes =
            [
                .. credits is null ? CommonFacts.Points(invoice.Note) : [],
                .. totals.Gross == 0 && credits is null ? ["Nothing is charged for this repair."] : Array.Empty<string>(),
                .. invoice.TaxRegistered ? Array.Empty<string>() : ["The workshop is not registered for tax: no tax is charged."],
                .. credits is null ? CommonFacts.Points(file.Shop.InvoiceText) : [],
            ],
        };

    private static string Terms(RepairFile file) => file.Shop.PaymentTermDays == 0
        ? "Due on receipt."
        : $"Due within {file.Shop.PaymentTermDays} days.";

    private static LineFacts Line(InvoiceLine line, decimal amount) => new()
    {
        Group = CommonFacts.Of(line.Kind),
        Text = line.Text,
        Quantity = line.Quantity,
        Unit = line.Unit,
        UnitPrice = line.UnitPrice,
        Amount = amount,
        TaxPercent = line.TaxName.Length == 0 ? null : line.TaxPercent,
    };
}
