using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>A paper as bytes.</summary>
/// <param name="Pdf">The same facts give the same bytes.</param>
/// <param name="MissingCharacters">What no bundled font can write; printed as a box.</param>
/// <param name="Pages">How many.</param>
public sealed record RenderedPaper(byte[] Pdf, IReadOnlyList<string> MissingCharacters, int Pages);

/// <summary>Frozen facts in, PDF out.</summary>
public static class PaperRenderer
{
    private static readonly Dictionary<string, byte[]> NoPhotos = [];

    /// <param name="kind">Decides the shape where two papers share their facts.</param>
    /// <param name="facts">The record <see cref="PaperJson.TypeOf"/> names for this kind.</param>
    /// <param name="photos">JPEG bytes by hash, for papers with findings; a photo that is not there is left out.</param>
    public static RenderedPaper Render(PaperKind kind, PaperFacts facts, IReadOnlyDictionary<string, byte[]>? photos = null)
    {
        ArgumentNullException.ThrowIfNull(facts);
        if (facts.GetType() != PaperJson.TypeOf(kind))
            throw new ArgumentException($"A paper of the kind {kind} is made from {PaperJson.TypeOf(kind).Name}, not from {facts.GetType().Name}.", nameof(facts));
        var shaper = new Shaper();
        var composer = new Composer(shaper, new PaperFormats(facts.Shop, CurrencyOf(facts)));
        var name = NameOf(kind, facts);
        var size = kind is PaperKind.ClaimTag or PaperKind.TrayLabel ? SheetSize.Label : SheetSize.For(facts.Shop.Country);
        var pages = (kind, facts) switch
        {
            (PaperKind.ClaimTag, ClaimTagFacts tag) => [ClaimTagLabel.Draw(composer, tag)],
            (_, TrayLabelFacts trays) => TrayLabel.Draw(composer, trays),
            _ => Pager.Lay(size, Compose(composer, kind, facts, photos ?? NoPhotos), RunningHead(composer, name, facts), (ink, page, of) => Foot(composer, size, ink, name, facts, page, of)),
        };
        var pdf = PdfWriter.Write(pages, size, new PdfDetails($"{name} {facts.PaperNumber}", facts.Shop.Name, SubjectOf(facts), facts.IssuedAt));
        return new RenderedPaper(pdf, shaper.Missing, pages.Count);
    }

    private static IReadOnlyList<Block> Compose(Composer c, PaperKind kind, PaperFacts facts, IReadOnlyDictionary<string, byte[]> photos) => (kind, facts) switch
    {
        (_, ClaimTagFacts tag) => ClaimTagPage.Compose(c, tag),
        (_, EstimateFacts estimate) => EstimatePaper.Compose(c, estimate),
        (_, ServiceRecordFacts record) => ServiceRecordPaper.Compose(c, record, photos),
        (_, InvoiceFacts invoice) => InvoicePaper.Compose(c, invoice),
        (_, StatementFacts statement) => StatementPaper.Compose(c, statement),
        (_, ReminderFacts reminder) => ReminderPaper.Compose(c, reminder),
        (_, BenchSheetFacts sheet) => BenchSheetPaper.Compose(c, sheet),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such paper."),
    };

    private static string SubjectOf(PaperFacts facts) => facts switch
    {
        RepairPaperFacts repair => $"Repair {repair.RepairNumber}, {Composer.NameOf(repair.Camera)}",
        StatementFacts statement => statement.Customer.Name,
        ReminderFacts reminder => reminder.Customer.Name,
        _ => "",
    };

    private static string CurrencyOf(PaperFacts facts) => facts switch
    {
        EstimateFacts estimate => estimate.Currency,
        InvoiceFacts invoice => invoice.Currency,
        BenchSheetFacts sheet => sheet.Currency,
        StatementFacts statement => statement.Currency,
        ReminderFacts reminder => reminder.Currency,
        _ => facts.Shop.Currency,
    };

    private static string NameOf(PaperKind kind, PaperFacts facts) => kind switch
    {
        PaperKind.ClaimTag or PaperKind.ClaimTagPage => "Claim tag",
        PaperKind.Estimate => "Estimate",
        PaperKind.ServiceRecord => "Service record",
        PaperKind.Invoice or PaperKind.CreditNote => facts is InvoiceFacts invoice ? LegalContent.TitleOf(invoice) : "Invoice",
        PaperKind.BenchSheet => "Bench sheet",
        PaperKind.TrayLabel => "Tray labels",
        PaperKind.Statement => "Statement",
        PaperKind.Reminder => "Reminder",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such paper."),
    };

    private static Stack RunningHead(Composer c, string name, PaperFacts facts) => new(
        [
            new Columns(
                [
                    (c.Spans([new Span(name, Composer.SmallStrong), new Span(" ", Composer.Small), new Span(facts.PaperNumber, Composer.SmallStrong with { Color = Palette.Accent })]), 1),
                    (c.Spans([new Span(facts.Shop.Name, Composer.SmallQuiet)], Align.Right), 1),
                ],
                12),
            new Spacer(Composer.Step),
            new Rule(Palette.Accent, 1),
            new Spacer(4 * Composer.Step),
        ]);

    private static void Foot(Composer c, SheetSize size, Ink ink, string name, PaperFacts facts, int page, int of)
    {
        var y = size.Height - size.Bottom + 6 * Composer.Step;
        ink.Line(size.Side, y, size.Side + size.Inner, y, Palette.Line, 0.5f);
        // The mark keeps the line left to right where the shop's name is not.
        var footName = facts.Shop.TaxNumber is null ? facts.Shop.Name : $"\u200E{facts.Shop.Name} · {Composer.TaxWord(facts.Shop.Country)} {facts.Shop.TaxNumber}";
        new Columns(
            [
                (new OneLine(c.Shaper, footName, Composer.SmallQuiet, Composer.SmallQuiet.Size, 11.25f), 1.2f),
                (c.Spans([new Span($"{name} {facts.PaperNumber}", Composer.Small), new Span($" · page {page} of {of}", Composer.SmallQuiet)], Align.Right), 1),
            ],
            12).Draw(ink, size.Side, y + Composer.Step, size.Inner);
    }
}
