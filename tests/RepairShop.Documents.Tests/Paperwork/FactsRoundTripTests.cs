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
}
