using System.Globalization;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.EInvoices;

/// <summary>
/// An invoice or credit note as UN/CEFACT Cross Industry Invoice D16B in the form EN 16931-1:2017 gives it (CEN/TS 16931-3-3): the
/// terms of <see cref="UblInvoice"/> in the other syntax. The same facts give the same bytes.
/// </summary>
public static class CiiInvoice
{
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Write(InvoiceFacts facts) => Write(EInvoiceBuilder.Of(facts));

    public static byte[] Write(EInvoice invoice) => EInvoiceXml.ToBytes(xml => Write(new CiiParts(xml, EInvoiceXml.DigitsOf(invoice)), invoice));

    private static void Write(CiiParts c, EInvoice invoice)
    {
        c.Start();
        c.Part("ExchangedDocumentContext", () => c.Text("GuidelineSpecifiedDocumentContextParameter", "ID", EInvoiceXml.Specification));
        c.Part("ExchangedDocument", () =>
        {
            c.Text("ID", invoice.Number);
            c.Text("TypeCode", invoice.TypeCode);
            c.Day("IssueDateTime", invoice.IssueDate);
            foreach (var note in NotesOf(invoice))
                c.Text("IncludedNote", "Content", note);
        });
        c.Part("SupplyChainTradeTransaction", () =>
        {
            foreach (var line in invoice.Lines)
                Line(c, line);
            c.Group("ApplicableHeaderTradeAgreement", () =>
            {
                Party(c, "SellerTradeParty", invoice.Seller);
                Party(c, "BuyerTradeParty", invoice.Buyer);
            });
            c.Group("ApplicableHeaderTradeDelivery", () => c.Group("ActualDeliverySupplyChainEvent", () => c.Day("OccurrenceDateTime", invoice.SupplyDate)));
            c.Group("ApplicableHeaderTradeSettlement", () => Settlement(c, invoice));
        });
    }

    /// <summary>D16B has room for one earlier invoice; where several deposits are taken off, a note names the others.</summary>
    private static IEnumerable<string> NotesOf(EInvoice invoice) => invoice.Notes.Concat(invoice.Preceding.Skip(1).Select(other =>
        other.IssueDate is { } day ? $"Refers to invoice {other.Number} of {day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)} too" : $"Refers to invoice {other.Number} too"));

    private static void Line(CiiParts c, ELine line) => c.Group("IncludedSupplyChainTradeLineItem", () =>
    {
        c.Text("AssociatedDocumentLineDocument", "LineID", line.Id);
        c.Group("SpecifiedTradeProduct", () =>
        {
            c.Text("SellerAssignedID", line.SellersId);
            c.Text("Name", line.Name);
            c.Text("Description", line.Description);
        });
        c.Group("SpecifiedLineTradeAgreement", () => c.Group("NetPriceProductTradePrice", () => c.Number("ChargeAmount", line.Price)));
        c.Group("SpecifiedLineTradeDelivery", () => c.Quantity("BilledQuantity", line.Quantity, line.UnitCode));
        c.Group("SpecifiedLineTradeSettlement", () =>
        {
            c.Category("ApplicableTradeTax", line.Tax);
            if (line.Change is { } change)
                Change(c, change);
            c.Group("SpecifiedTradeSettlementLineMonetarySummation", () => c.Money("LineTotalAmount", line.Amount));
        });
    });

    private static void Party(CiiParts c, string name, EParty party) => c.Group(name, () =>
    {
        c.Text("Name", party.Name);
        c.Text("SpecifiedLegalOrganization", "ID", party.RegistrationId);
        if (party.Contact.Length + party.Phone.Length + party.Email.Length > 0)
            c.Group("DefinedTradeContact", () =>
            {
                c.Text("PersonName", party.Contact);
                c.Text("TelephoneUniversalCommunication", "CompleteNumber", party.Phone);
                c.Text("EmailURIUniversalCommunication", "URIID", party.Email);
            });
        c.Group("PostalTradeAddress", () =>
        {
            c.Text("PostcodeCode", party.Address.PostalCode);
            c.Text("LineOne", party.Address.Street);
            c.Text("LineTwo", party.Address.Street2);
            c.Text("CityName", party.Address.City);
            c.Text("CountryID", party.Address.Country);
            c.Text("CountrySubDivisionName", party.Address.Region);
        });
        if (party.VatId.Length > 0)
            c.Group("SpecifiedTaxRegistration", () => c.Text("ID", party.VatId, "schemeID", "VA"));
    });

    private static void Settlement(CiiParts c, EInvoice invoice)
    {
        if (invoice.MeansCode.Length > 0)
            c.Text("PaymentReference", invoice.PaymentReference);
        c.Text("InvoiceCurrencyCode", invoice.Currency);
        if (invoice.MeansCode.Length > 0)
            c.Group("SpecifiedTradeSettlementPaymentMeans", () =>
            {
                c.Text("TypeCode", invoice.MeansCode);
                c.Group("PayeePartyCreditorFinancialAccount", () =>
                {
                    c.Text("IBANID", invoice.Iban);
                    c.Text("AccountName", invoice.AccountName);
                });
                c.Text("PayeeSpecifiedCreditorFinancialInstitution", "BICID", invoice.Bic);
            });
        foreach (var tax in invoice.Taxes)
            c.Category("ApplicableTradeTax", tax.Tax, tax);
        foreach (var change in invoice.Changes)
            Change(c, change);
        if (invoice.DueDate is not null || !string.IsNullOrWhiteSpace(invoice.Terms))
            c.Group("SpecifiedTradePaymentTerms", () =>
            {
                c.Text("Description", invoice.Terms);
                c.Day("DueDateDateTime", invoice.DueDate);
            });
        c.Group("SpecifiedTradeSettlementHeaderMonetarySummation", () => Sums(c, invoice.Sums, invoice.Currency));
        foreach (var (number, issued) in invoice.Preceding.Take(1))
            c.Group("InvoiceReferencedDocument", () =>
            {
                c.Text("IssuerAssignedID", number);
                c.DayOfReference("FormattedIssueDateTime", issued);
            });
    }

    private static void Change(CiiParts c, EChange change) => c.Group("SpecifiedTradeAllowanceCharge", () =>
    {
        c.Indicator("ChargeIndicator", change.Amount >= 0);
        c.Number("CalculationPercent", change.Percent);
        if (change.Percent is not null)
            c.Money("BasisAmount", Math.Abs(change.Base));
        c.Money("ActualAmount", Math.Abs(change.Amount));
        c.Text("Reason", change.Reason);
        if (change.Tax is { } tax)
            c.Category("CategoryTradeTax", tax);
    });

    private static void Sums(CiiParts c, ESums sums, string currency)
    {
        c.Money("LineTotalAmount", sums.Lines);
        if (sums.Charges != 0)
            c.Money("ChargeTotalAmount", sums.Charges);
        if (sums.Allowances != 0)
            c.Money("AllowanceTotalAmount", sums.Allowances);
        c.Money("TaxBasisTotalAmount", sums.Net);
        c.Money("TaxTotalAmount", sums.Tax, currency);
        if (sums.Rounding != 0)
            c.Money("RoundingAmount", sums.Rounding);
        c.Money("GrandTotalAmount", sums.Gross);
        if (sums.Paid != 0)
            c.Money("TotalPrepaidAmount", sums.Paid);
        c.Money("DuePayableAmount", sums.Due);
    }
}
