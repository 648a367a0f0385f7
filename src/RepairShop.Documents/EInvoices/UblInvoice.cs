using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.EInvoices;

/// <summary>
/// An invoice or credit note as UBL 2.1 (ISO/IEC 19845:2015) in the form EN 16931-1:2017 gives it (CEN/TS 16931-3-2). The same facts
/// give the same bytes.
/// </summary>
public static class UblInvoice
{
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Write(InvoiceFacts facts) => Write(EInvoiceBuilder.Of(facts));

    public static byte[] Write(EInvoice invoice) =>
        EInvoiceXml.ToBytes(xml => Write(new UblParts(xml, invoice.Currency, EInvoiceXml.DigitsOf(invoice)), invoice));

    private static void Write(UblParts u, EInvoice invoice)
    {
        var credit = invoice.TypeCode == "381";
        u.Start(credit ? "CreditNote" : "Invoice");
        u.Text("CustomizationID", EInvoiceXml.Specification);
        u.Text("ID", invoice.Number);
        u.Day("IssueDate", invoice.IssueDate);
        if (!credit)
            u.Day("DueDate", invoice.DueDate);
        u.Text(credit ? "CreditNoteTypeCode" : "InvoiceTypeCode", invoice.TypeCode);
        u.Text("Note", string.Join('\n', invoice.Notes)); // the UBL binding has room for one
        u.Text("DocumentCurrencyCode", invoice.Currency);
        foreach (var (number, issued) in invoice.Preceding)
            u.Group("BillingReference", () => u.Group("InvoiceDocumentReference", () =>
            {
                u.Text("ID", number);
                u.Day("IssueDate", issued);
            }));
        u.Group("AccountingSupplierParty", () => Party(u, invoice.Seller));
        u.Group("AccountingCustomerParty", () => Party(u, invoice.Buyer));
        u.Group("Delivery", () => u.Day("ActualDeliveryDate", invoice.SupplyDate));
        Payment(u, invoice);
        foreach (var change in invoice.Changes)
            Change(u, change);
        Taxes(u, invoice);
        Sums(u, invoice.Sums);
        foreach (var line in invoice.Lines)
            Line(u, line, credit);
    }

    private static void Party(UblParts u, EParty party) => u.Group("Party", () =>
    {
        u.Group("PostalAddress", () =>
        {
            u.Text("StreetName", party.Address.Street);
            u.Text("AdditionalStreetName", party.Address.Street2);
            u.Text("CityName", party.Address.City);
            u.Text("PostalZone", party.Address.PostalCode);
            u.Text("CountrySubentity", party.Address.Region);
            u.Group("Country", () => u.Text("IdentificationCode", party.Address.Country));
        });
        if (party.VatId.Length > 0)
            u.Group("PartyTaxScheme", () =>
            {
                u.Text("CompanyID", party.VatId);
                u.Vat();
            });
        u.Group("PartyLegalEntity", () =>
        {
            u.Text("RegistrationName", party.Name);
            u.Text("CompanyID", party.RegistrationId);
        });
        if (party.Contact.Length + party.Phone.Length + party.Email.Length > 0)
            u.Group("Contact", () =>
            {
                u.Text("Name", party.Contact);
                u.Text("Telephone", party.Phone);
                u.Text("ElectronicMail", party.Email);
            });
    });

    private static void Payment(UblParts u, EInvoice invoice)
    {
        if (invoice.MeansCode.Length > 0)
            u.Group("PaymentMeans", () =>
            {
                u.Text("PaymentMeansCode", invoice.MeansCode);
                u.Text("PaymentID", invoice.PaymentReference);
                u.Group("PayeeFinancialAccount", () =>
                {
                    u.Text("ID", invoice.Iban);
                    u.Text("Name", invoice.AccountName);
                    if (invoice.Bic.Length > 0)
                        u.Group("FinancialInstitutionBranch", () => u.Text("ID", invoice.Bic));
                });
            });
        if (!string.IsNullOrWhiteSpace(invoice.Terms))
            u.Group("PaymentTerms", () => u.Text("Note", invoice.Terms));
    }

    private static void Change(UblParts u, EChange change) => u.Group("AllowanceCharge", () =>
    {
        u.Text("ChargeIndicator", change.Amount < 0 ? "false" : "true");
        u.Text("AllowanceChargeReason", change.Reason);
        u.Number("MultiplierFactorNumeric", change.Percent);
        u.Money("Amount", Math.Abs(change.Amount));
        if (change.Percent is not null)
            u.Money("BaseAmount", Math.Abs(change.Base));
        if (change.Tax is { } tax)
            u.Category("TaxCategory", tax);
    });

    private static void Taxes(UblParts u, EInvoice invoice) => u.Group("TaxTotal", () =>
    {
        u.Money("TaxAmount", invoice.Sums.Tax);
        foreach (var tax in invoice.Taxes)
            u.Group("TaxSubtotal", () =>
            {
                u.Money("TaxableAmount", tax.Base);
                u.Money("TaxAmount", tax.Amount);
                u.Category("TaxCategory", tax.Tax, tax.Reason);
            });
    });

    private static void Sums(UblParts u, ESums sums) => u.Group("LegalMonetaryTotal", () =>
    {
        u.Money("LineExtensionAmount", sums.Lines);
        u.Money("TaxExclusiveAmount", sums.Net);
        u.Money("TaxInclusiveAmount", sums.Gross);
        if (sums.Allowances != 0)
            u.Money("AllowanceTotalAmount", sums.Allowances);
        if (sums.Charges != 0)
            u.Money("ChargeTotalAmount", sums.Charges);
        if (sums.Paid != 0)
            u.Money("PrepaidAmount", sums.Paid);
        if (sums.Rounding != 0)
            u.Money("PayableRoundingAmount", sums.Rounding);
        u.Money("PayableAmount", sums.Due);
    });

    private static void Line(UblParts u, ELine line, bool credit) => u.Group(credit ? "CreditNoteLine" : "InvoiceLine", () =>
    {
        u.Text("ID", line.Id);
        u.Quantity(credit ? "CreditedQuantity" : "InvoicedQuantity", line.Quantity, line.UnitCode);
        u.Money("LineExtensionAmount", line.Amount);
        if (line.Change is { } change)
            Change(u, change);
        u.Group("Item", () =>
        {
            u.Text("Description", line.Description);
            u.Text("Name", line.Name);
            if (line.SellersId.Length > 0)
                u.Group("SellersItemIdentification", () => u.Text("ID", line.SellersId));
            u.Category("ClassifiedTaxCategory", line.Tax);
        });
        u.Group("Price", () => u.Price(line.Price));
    });
}
