using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

public class EstimatePaperTests
{
    private static string Text(EstimateFacts facts) => ReadBack.PdfToText(PaperRenderer.Render(PaperKind.Estimate, facts)).Replace('\u00A0', ' ');

    [Fact]
    public void It_says_what_was_seen_what_it_may_cost_and_how_to_answer()
    {
        var text = Text(Sample.Estimate);
        foreach (var expected in (string[])
        [
            "E-2026-0231, revision 2", "Slow speeds hang", "Shutter blades oily at the pivots", "3–4 h 58.00 174.00 232.00", "no. TA0-114 · donor camera",
            "Net €238.00 €334.50", "VAT 23 % €54.74 €76.94", "Low and high total €292.74 €411.44", "not charge more than €411.44 without asking you first",
            "If you decline, €45.00 is charged", "may not be reversible", "Drilling out the cross-threaded screw may mark the front plate.", "Valid until 4 December 2026",
            "https://ternstreet.example/answer/7Q2M-K9FD", "guaranteed for twelve months", "Spring under tension", "Follow the product’s safety sheet and local rules.",
        ])
            Assert.Contains(expected.Replace(" – ", "–", StringComparison.Ordinal), text.Replace(" – ", "–", StringComparison.Ordinal));
    }

    [Fact]
    public void Labour_and_parts_stand_apart_in_that_order()
    {
        var text = Text(Sample.Estimate with { Lines = [.. Sample.Estimate.Lines.Reverse()] });
        Assert.True(text.IndexOf(" Labour ", StringComparison.Ordinal) < text.IndexOf(" Parts ", StringComparison.Ordinal));
        Assert.True(text.IndexOf(" Parts ", StringComparison.Ordinal) < text.IndexOf(" Materials ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_shutter_without_a_name_is_told_by_its_kind()
    {
        var text = Text(Sample.Estimate with { Camera = Sample.Camera with { Shutter = null, ShutterSerial = null } });
        Assert.Contains("Shutter between-lens", text);
        Assert.DoesNotContain("(between-lens)", text);
    }

    [Fact]
    public void Without_taking_apart_there_is_no_warning() => Assert.DoesNotContain("reversible", Text(Sample.Estimate with { NeedsStripDown = false }));

    [Fact]
    public void Without_a_link_it_says_whom_to_write_to() =>
        Assert.Contains("Please answer by 4 December 2026: bench@ternstreet.example or 020 7946 0187.", Text(Sample.Estimate with { AnswerUrl = null }));

    [Theory]
    [InlineData(Caution.FlammableSolvent, "Flammable solvent")]
    [InlineData(Caution.FlashCapacitor, "Flash capacitor")]
    [InlineData(Caution.MercuryCell, "Mercury cell")]
    [InlineData(Caution.ThoriatedGlass, "Thoriated glass")]
    [InlineData(Caution.SeleniumCell, "Selenium cell")]
    [InlineData(Caution.SpringUnderTension, "Spring under tension")]
    public void Each_caution_is_printed_on_every_paper_that_lists_it(Caution caution, string words)
    {
        Assert.Contains(words, Text(Sample.Estimate with { Cautions = [caution] }));
        var sheet = ReadBack.PdfToText(PaperRenderer.Render(PaperKind.BenchSheet, Sample.BenchSheet with { Cautions = [caution] }));
        Assert.Contains(words, sheet);
        Assert.Contains("Follow the product’s safety sheet and local rules.", sheet);
    }
}
