using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

public class FactsRoundTripTests
{
    public static TheoryData<PaperKind> Kinds => [.. Enum.GetValues<PaperKind>()];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Frozen_facts_read_back_are_the_facts_that_were_written(PaperKind kind)
    {
        var facts = Sample.All.Single(paper => paper.Kind == kind).Facts;
        var json = PaperJson.Write(facts);
        var back = PaperJson.Read(kind, json);
        Assert.Equivalent(facts, back, strict: true);
        Assert.Equal(json, PaperJson.Write(back));
    }

    [Fact]
    public void Enums_are_written_by_name_so_that_a_new_one_cannot_shift_an_old_paper()
    {
        var json = PaperJson.Write(Sample.Invoice);
        Assert.Contains("\"Group\":\"Labour\"", json);
        Assert.Contains("\"Category\":\"Standard\"", json);
    }

    [Fact]
    public void Money_keeps_every_digit()
    {
        var json = PaperJson.Write(Sample.Invoice with { Total = 79228162514264337593.54m });
        Assert.Equal(79228162514264337593.54m, ((InvoiceFacts)PaperJson.Read(PaperKind.Invoice, json)).Total);
    }

    /// <summary>As the first version wrote it, before discounts, categories on lines, rounding and deposits were kept.</summary>
    private const string OldInvoice = """
        {"Customer":{"Name":"Ines Halloway","AddressLines":["Flat 3"],"Country":"IE"},"IssueDate":"2026-10-01","SupplyDate":"2026-09-30","Approvals":[],
        "Currency":"EUR","Lines":[{"Group":"Labour","Text":"Shutter cleaned","Quantity":2,"Unit":"h","UnitPrice":60,"Amount":120,"TaxPercent":23}],
        "Allowances":[{"Text":"Goodwill","Amount":20,"TaxPercent":23}],"PricesIncludeTax":false,"Net":100,
        "Taxes":[{"Name":"VAT","Category":"Standard","Percent":23,"Base":100,"Tax":23}],"TaxTotal":23,"Total":123,"Payments":[],"Paid":0,"Due":123,
        "DueDate":"2026-10-15","Terms":"Due within 14 days.","Notes":[],"PaperNumber":"I-2026-0001","IssuedAt":"2026-10-01T09:00:00+00:00",
        "IssuedBy":"Rowan Teague","Shop":{"Name":"Tern Street Cameras","AddressLines":["14 Tern Street"],"Country":"IE","TaxNumber":"IE1234567FA",
        "Locale":"en-IE","Currency":"EUR","TimeZone":"Europe/Dublin"},"RepairNumber":"2026-0001","Camera":{"Maker":"Orrevale","Model":"Pelter"}}
        """;

    [Fact]
    public void An_invoice_frozen_by_the_first_version_still_reads_prints_and_becomes_an_electronic_one()
    {
        var facts = (InvoiceFacts)PaperJson.Read(PaperKind.Invoice, OldInvoice);
        Assert.Equal((null, 0m, false), (facts.Rounding, facts.CashRounding, facts.IsDeposit));
        var text = ReadBack.PdfToText(RepairShop.Documents.Paperwork.PaperRenderer.Render(PaperKind.Invoice, facts)).Replace('\u00A0', ' ');
        Assert.Contains("Goodwill", text);
        Assert.Contains("€123.00", text);
        Assert.DoesNotContain("rounded there, once", text);
        Assert.Empty(Domain.EInvoices.EInvoiceRules.Check(Domain.EInvoices.EInvoiceBuilder.Of(facts)));
    }
}
