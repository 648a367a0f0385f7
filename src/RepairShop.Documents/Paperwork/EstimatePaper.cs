using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>The offer.</summary>
internal static class EstimatePaper
{
    /// <summary>After Cal. Harbors and Navigation Code § 413, the model for a warning before taking something apart to estimate.</summary>
    private const string StripDownWarning =
        "Taking a camera apart may not be reversible: worn or glued parts can break, and it may not be possible to bring it back to the state it came in.";

    public static IReadOnlyList<Block> Compose(Composer c, EstimateFacts facts)
    {
        var f = c.Formats;
        // One width for low and one for high in the lines and in the totals, wide enough for the largest type.
        var widest = c.Text(f.Money(facts.HighTotal), Composer.Large).NaturalWidth;
        Column[] sums = [new Column(0, 12, widest), new Column(0, 18, widest)];
        return
        [
            .. c.Head("Estimate", facts.Revision > 1 ? $"{facts.PaperNumber}, revision {facts.Revision}" : facts.PaperNumber, facts.Shop),
            Composer.Thirds(
                c.Customer(facts.Customer, facts.Shop),
                c.Camera(facts.Camera),
                c.Labelled("Dates", c.Pairs(
                        [
                        ("Received", f.Day(facts.ReceivedOn)),
                        ("Issued", f.Day(facts.IssueDate)),
                        ("Valid until", f.Day(facts.ValidUntil)),
                        ("Repair", facts.RepairNumber),
                        ("Issued by", facts.IssuedBy),
                    ]))),
            .. c.TextSection("Complaint", facts.Complaint),
            .. c.PointsSection("What was seen", facts.Seen),
            new Spacer(4 * Composer.Step),
            LineTable.Of(c, facts, sums),
            new Spacer(2 * Composer.Step),
            Totals(c, facts, sums),
            .. IfDeclined(c, facts),
            .. c.PointsSection("Needs your yes", facts.NeedsConsent),
            .. Answer(c, facts),
            .. c.Cautions(facts.Cautions),
            .. c.Conditions(facts.Conditions),
            .. c.End($"estimate {facts.PaperNumber}"),
        ];
    }

    private static Section Totals(Composer c, EstimateFacts facts, Column[] columns)
    {
        var f = c.Formats;
        Row Sum(string name, decimal low, decimal high, TextStyle style) => new(
            [c.Text(name, style), c.Text(f.Money(low), style, Align.Right), c.Text(f.Money(high), style, Align.Right)])
        { Ruled = false };

        Table Sums(IEnumerable<Row> rows) => new([new Column(1), .. columns], null, [.. rows], Palette.Line, padding: 1);

        var taxes = facts.HighTaxes.Select((high, i) => Sum($"{high.Name} {f.Percent(high.Percent)}", i < facts.LowTaxes.Count ? facts.LowTaxes[i].Tax : 0, high.Tax, Composer.Body));
        return new Section(null, new Stack(
            [
                new Rule(Palette.Line, 0.5f),
                new Spacer(Composer.Step),
                .. facts.HighTaxes.Count == 0 ? Array.Empty<Block>() : [Sums([Sum("Net", facts.LowNet, facts.HighNet, Composer.Body), .. taxes]), new Spacer(Composer.Step), new Rule(Palette.Ink, 0.7f), new Spacer(Composer.Step)],
                Sums([Sum("Low and high total", facts.LowTotal, facts.HighTotal, Composer.Large)]),
                new Spacer(Composer.Step),
                new Rule(Palette.Ink, 0.7f),
                new Spacer(1.5f),
                new Rule(Palette.Ink, 0.7f),
                new Spacer(2 * Composer.Step),
                c.Text($"We will not charge more than {f.Money(facts.HighTotal)} without asking you first.{(facts.PricesIncludeTax ? " Prices include tax." : "")}", Composer.Small),
            ], together: true), 150, 18);
    }

    private static IEnumerable<Block> IfDeclined(Composer c, EstimateFacts facts)
    {
        var texts = new List<string>();
        if (facts.StripDownCharge is { } charge)
            texts.Add(charge == 0 ? "If you decline, nothing is charged." : $"If you decline, {c.Formats.Money(charge)} is charged for taking the camera apart and looking into it, tax included.");
        if (facts.NeedsStripDown)
            texts.Add(StripDownWarning);
        return texts.Count == 0 ? [] : c.Section("If you decline", [.. texts.Select(text => c.Text(text, Composer.Body))]);
    }

    private static IEnumerable<Block> Answer(Composer c, EstimateFacts facts)
    {
        string?[] other = [facts.Shop.Email, facts.Shop.Phone];
        var reach = string.Join(" or ", other.OfType<string>());
        var until = c.Formats.Day(facts.ValidUntil);
        if (facts.AnswerUrl is not { } url)
            return c.Section("How to answer", c.Text($"Please answer by {until}{(reach.Length == 0 ? "." : $": {reach}.")}", Composer.Body));
        var words = new Stack(
            [
                c.Text($"Please answer by {until}: scan the code, or open", Composer.Body),
                c.Text(url, Composer.Strong),
                .. reach.Length == 0 ? Array.Empty<Block>() : [c.Text($"Or {reach}. Say yes or no to all of it, or to a part.", Composer.Body)],
            ], 2);
        return c.Section("How to answer", new Columns([(words, 3), (new QrBlock(url, 66, Palette.Ink, right: true), 1)], 18));
    }
}
