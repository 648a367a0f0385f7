using System.Text;
using System.Xml.Linq;

namespace RepairShop.Documents.Tests.EInvoices;

/// <summary>
/// The business terms of EN 16931 found in a file, by the paths the published bindings give them (CEN/TS 16931-3-2 for UBL,
/// CEN/TS 16931-3-3 for CII, as in ConnectingEurope/eInvoicing-EN16931). Written apart from the writers, so that each is the other's check.
/// </summary>
internal static class Terms
{
    private static readonly (string Term, string Path)[] UblDocument =
    [
        ("BT-24", "CustomizationID"), ("BT-1", "ID"), ("BT-2", "IssueDate"), ("BT-9", "DueDate"), ("BT-3", "InvoiceTypeCode"), ("BT-3", "CreditNoteTypeCode"), ("BT-22", "Note"),
        ("BT-5", "DocumentCurrencyCode"), ("BT-72", "Delivery/ActualDeliveryDate"), ("BT-81", "PaymentMeans/PaymentMeansCode"), ("BT-83", "PaymentMeans/PaymentID"),
        ("BT-84", "PaymentMeans/PayeeFinancialAccount/ID"), ("BT-85", "PaymentMeans/PayeeFinancialAccount/Name"),
        ("BT-86", "PaymentMeans/PayeeFinancialAccount/FinancialInstitutionBranch/ID"), ("BT-20", "PaymentTerms/Note"), ("BT-110", "TaxTotal/TaxAmount"),
        ("BT-106", "LegalMonetaryTotal/LineExtensionAmount"), ("BT-109", "LegalMonetaryTotal/TaxExclusiveAmount"), ("BT-112", "LegalMonetaryTotal/TaxInclusiveAmount"),
        ("BT-107", "LegalMonetaryTotal/AllowanceTotalAmount"), ("BT-108", "LegalMonetaryTotal/ChargeTotalAmount"), ("BT-113", "LegalMonetaryTotal/PrepaidAmount"),
        ("BT-114", "LegalMonetaryTotal/PayableRoundingAmount"), ("BT-115", "LegalMonetaryTotal/PayableAmount"),
        .. UblParty("AccountingSupplierParty/Party/", 0), .. UblParty("AccountingCustomerParty/Party/", 1),
    ];

    private static IEnumerable<(string, string)> UblParty(string at, int who) => Party(at, who,
        "PartyLegalEntity/RegistrationName", "PartyLegalEntity/CompanyID", "PartyTaxScheme/CompanyID", "Contact/Name", "Contact/Telephone", "Contact/ElectronicMail",
        "PostalAddress/StreetName", "PostalAddress/AdditionalStreetName", "PostalAddress/CityName", "PostalAddress/PostalZone", "PostalAddress/CountrySubentity",
        "PostalAddress/Country/IdentificationCode");

    private static IEnumerable<(string, string)> CiiParty(string at, int who) => Party(at, who,
        "Name", "SpecifiedLegalOrganization/ID", "SpecifiedTaxRegistration/ID", "DefinedTradeContact/PersonName", "DefinedTradeContact/TelephoneUniversalCommunication/CompleteNumber",
        "DefinedTradeContact/EmailURIUniversalCommunication/URIID", "PostalTradeAddress/LineOne", "PostalTradeAddress/LineTwo", "PostalTradeAddress/CityName",
        "PostalTradeAddress/PostcodeCode", "PostalTradeAddress/CountrySubDivisionName", "PostalTradeAddress/CountryID");

    private static IEnumerable<(string, string)> Party(string at, int who, params string[] paths) => PartyTermsOf(who).Zip(paths, (term, path) => (term, at + path));

    private static string[] PartyTermsOf(int who) => who == 0
        ? ["BT-27", "BT-30", "BT-31", "BT-41", "BT-42", "BT-43", "BT-35", "BT-36", "BT-37", "BT-38", "BT-39", "BT-40"]
        : ["BT-44", "BT-47", "BT-48", "BT-56", "BT-57", "BT-58", "BT-50", "BT-51", "BT-52", "BT-53", "BT-54", "BT-55"];

    private const string Context = "ExchangedDocumentContext/GuidelineSpecifiedDocumentContextParameter/ID";
    private const string Agreement = "SupplyChainTradeTransaction/ApplicableHeaderTradeAgreement/";
    private const string Settlement = "SupplyChainTradeTransaction/ApplicableHeaderTradeSettlement/";
    private const string Means = Settlement + "SpecifiedTradeSettlementPaymentMeans/";
    private const string Sums = Settlement + "SpecifiedTradeSettlementHeaderMonetarySummation/";

    private static readonly (string Term, string Path)[] CiiDocument =
    [
        ("BT-24", Context), ("BT-1", "ExchangedDocument/ID"), ("BT-2", "ExchangedDocument/IssueDateTime/DateTimeString"), ("BT-3", "ExchangedDocument/TypeCode"),
        ("BT-5", Settlement + "InvoiceCurrencyCode"), ("BT-9", Settlement + "SpecifiedTradePaymentTerms/DueDateDateTime/DateTimeString"),
        ("BT-20", Settlement + "SpecifiedTradePaymentTerms/Description"), ("BT-83", Settlement + "PaymentReference"), ("BT-81", Means + "TypeCode"),
        ("BT-72", "SupplyChainTradeTransaction/ApplicableHeaderTradeDelivery/ActualDeliverySupplyChainEvent/OccurrenceDateTime/DateTimeString"),
        ("BT-84", Means + "PayeePartyCreditorFinancialAccount/IBANID"), ("BT-85", Means + "PayeePartyCreditorFinancialAccount/AccountName"),
        ("BT-86", Means + "PayeeSpecifiedCreditorFinancialInstitution/BICID"), ("BT-106", Sums + "LineTotalAmount"), ("BT-107", Sums + "AllowanceTotalAmount"),
        ("BT-108", Sums + "ChargeTotalAmount"), ("BT-109", Sums + "TaxBasisTotalAmount"), ("BT-110", Sums + "TaxTotalAmount"), ("BT-112", Sums + "GrandTotalAmount"),
        ("BT-113", Sums + "TotalPrepaidAmount"), ("BT-114", Sums + "RoundingAmount"), ("BT-115", Sums + "DuePayableAmount"),
        .. CiiParty(Agreement + "SellerTradeParty/", 0), .. CiiParty(Agreement + "BuyerTradeParty/", 1),
    ];

    public static SortedDictionary<string, string> OfUbl(byte[] file)
    {
        var root = XDocument.Parse(Encoding.UTF8.GetString(file)).Root!;
        var terms = Of(root, "", UblDocument);
        Each(terms, root, "BG-3", "BillingReference/InvoiceDocumentReference", ("BT-25", "ID"), ("BT-26", "IssueDate"));
        Changes(terms, root, "", "AllowanceCharge", "ChargeIndicator", ("", "AllowanceChargeReason"), ("%", "MultiplierFactorNumeric"), ("Amount", "Amount"), ("Base", "BaseAmount"),
            ("Category", "TaxCategory/ID"), ("Rate", "TaxCategory/Percent"));
        Each(terms, root, "BG-23", "TaxTotal/TaxSubtotal", ("BT-116", "TaxableAmount"), ("BT-117", "TaxAmount"), ("BT-118", "TaxCategory/ID"), ("BT-119", "TaxCategory/Percent"),
            ("BT-120", "TaxCategory/TaxExemptionReason"));
        var lines = root.Elements().Where(element => element.Name.LocalName is "InvoiceLine" or "CreditNoteLine");
        foreach (var (line, at) in Numbered(lines, "BG-25"))
        {
            Add(terms, line, at, [("BT-126", "ID"), ("BT-129", "InvoicedQuantity"), ("BT-129", "CreditedQuantity"), ("BT-131", "LineExtensionAmount"), ("BT-153", "Item/Name"),
                ("BT-154", "Item/Description"), ("BT-155", "Item/SellersItemIdentification/ID"), ("BT-146", "Price/PriceAmount"), ("BT-151", "Item/ClassifiedTaxCategory/ID"),
                ("BT-152", "Item/ClassifiedTaxCategory/Percent")]);
            terms[at + "BT-130"] = line.Descendants().First(element => element.Attribute("unitCode") is not null).Attribute("unitCode")!.Value;
            Changes(terms, line, at, "AllowanceCharge", "ChargeIndicator", ("", "AllowanceChargeReason"), ("%", "MultiplierFactorNumeric"), ("Amount", "Amount"), ("Base", "BaseAmount"));
        }
        return terms;
    }

    public static SortedDictionary<string, string> OfCii(byte[] file)
    {
        var root = XDocument.Parse(Encoding.UTF8.GetString(file)).Root!;
        var terms = Of(root, "", CiiDocument);
        var notes = At(root, "ExchangedDocument/IncludedNote/Content").Select(note => note.Value).ToList();
        if (notes.Count > 0)
            terms["BT-22"] = string.Join('\n', notes);
        var settlement = At(root, Settlement.TrimEnd('/')).Single();
        (string, string)[] changed = [("", "Reason"), ("%", "CalculationPercent"), ("Amount", "ActualAmount"), ("Base", "BasisAmount")];
        Each(terms, settlement, "BG-3", "InvoiceReferencedDocument", ("BT-25", "IssuerAssignedID"), ("BT-26", "FormattedIssueDateTime/DateTimeString"));
        Changes(terms, settlement, "", "SpecifiedTradeAllowanceCharge", "ChargeIndicator/Indicator",
            [.. changed, ("Category", "CategoryTradeTax/CategoryCode"), ("Rate", "CategoryTradeTax/RateApplicablePercent")]);
        Each(terms, settlement, "BG-23", "ApplicableTradeTax", ("BT-116", "BasisAmount"), ("BT-117", "CalculatedAmount"), ("BT-118", "CategoryCode"),
            ("BT-119", "RateApplicablePercent"), ("BT-120", "ExemptionReason"));
        foreach (var (line, at) in Numbered(At(root, "SupplyChainTradeTransaction/IncludedSupplyChainTradeLineItem"), "BG-25"))
        {
            Add(terms, line, at, [("BT-126", "AssociatedDocumentLineDocument/LineID"), ("BT-129", "SpecifiedLineTradeDelivery/BilledQuantity"),
                ("BT-131", "SpecifiedLineTradeSettlement/SpecifiedTradeSettlementLineMonetarySummation/LineTotalAmount"), ("BT-153", "SpecifiedTradeProduct/Name"),
                ("BT-154", "SpecifiedTradeProduct/Description"), ("BT-155", "SpecifiedTradeProduct/SellerAssignedID"),
                ("BT-146", "SpecifiedLineTradeAgreement/NetPriceProductTradePrice/ChargeAmount"), ("BT-151", "SpecifiedLineTradeSettlement/ApplicableTradeTax/CategoryCode"),
                ("BT-152", "SpecifiedLineTradeSettlement/ApplicableTradeTax/RateApplicablePercent")]);
            terms[at + "BT-130"] = At(line, "SpecifiedLineTradeDelivery/BilledQuantity").Single().Attribute("unitCode")!.Value;
            Changes(terms, At(line, "SpecifiedLineTradeSettlement").Single(), at, "SpecifiedTradeAllowanceCharge", "ChargeIndicator/Indicator", changed);
        }
        return terms;
    }

    private static SortedDictionary<string, string> Of(XElement root, string at, (string, string)[] paths)
    {
        var terms = new SortedDictionary<string, string>(StringComparer.Ordinal);
        Add(terms, root, at, paths);
        return terms;
    }

    private static void Add(SortedDictionary<string, string> terms, XElement under, string at, (string Term, string Path)[] paths)
    {
        foreach (var (term, path) in paths)
            if (At(under, path).FirstOrDefault() is { } found)
                terms[at + term] = found.Attribute("format")?.Value == "102" ? $"{found.Value[..4]}-{found.Value[4..6]}-{found.Value[6..]}" : found.Value;
    }

    private static void Each(SortedDictionary<string, string> terms, XElement under, string group, string path, params (string, string)[] paths)
    {
        foreach (var (element, at) in Numbered(At(under, path), group))
            Add(terms, element, at, paths);
    }

    /// <summary>Discounts and charges are numbered apart: BG-20 and BG-21 on the document, BG-27 and BG-28 on a line.</summary>
    private static void Changes(SortedDictionary<string, string> terms, XElement under, string at, string path, string indicator, params (string, string)[] paths)
    {
        foreach (var (isCharge, group) in ((string, string)[])[("false", at.Length == 0 ? "BG-20" : "BG-27"), ("true", at.Length == 0 ? "BG-21" : "BG-28")])
            foreach (var (element, place) in Numbered(At(under, path).Where(change => At(change, indicator).Single().Value == isCharge), at + group))
                Add(terms, element, place, paths);
    }

    private static IEnumerable<(XElement Element, string At)> Numbered(IEnumerable<XElement> elements, string group) =>
        elements.Select((element, index) => (element, $"{group}/{index + 1}/"));

    private static IEnumerable<XElement> At(XElement under, string path) =>
        path.Split('/').Aggregate((IEnumerable<XElement>)[under], (found, name) => found.SelectMany(element => element.Elements().Where(child => child.Name.LocalName == name)));
}
