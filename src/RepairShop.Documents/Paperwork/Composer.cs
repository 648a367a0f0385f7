using System.Globalization;
using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>
/// The house style in blocks: what a title, a margin heading, a list of facts look like. Spacing goes in steps of 3 pt (4 px),
/// type in four sizes.
/// </summary>
internal sealed class Composer(Shaper shaper, PaperFormats formats)
{
    public const float Step = 3;
    private const float Margin = 96;
    private const float Gutter = 18;

    public static readonly TextStyle Title = new(24, Weight.SemiBold, Palette.Ink);
    public static readonly TextStyle Large = new(12.5f, Weight.SemiBold, Palette.Ink);
    public static readonly TextStyle Body = new(9.75f, Weight.Regular, Palette.Ink);
    public static readonly TextStyle Strong = new(9.75f, Weight.SemiBold, Palette.Ink);
    public static readonly TextStyle Quiet = new(9.75f, Weight.Regular, Palette.Soft);
    public static readonly TextStyle Small = new(8.25f, Weight.Regular, Palette.Ink);
    public static readonly TextStyle SmallStrong = new(8.25f, Weight.SemiBold, Palette.Ink);
    public static readonly TextStyle SmallQuiet = new(8.25f, Weight.Regular, Palette.Soft);

    /// <summary>English names; a code the machine's tables do not know is printed as it is.</summary>
    private static readonly Dictionary<string, string> Countries = CultureInfo.GetCultures(CultureTypes.SpecificCultures)
        .Select(culture => new RegionInfo(culture.Name))
        .Where(region => region.TwoLetterISORegionName.Length == 2)
        .GroupBy(region => region.TwoLetterISORegionName)
        .ToDictionary(group => group.Key, group => group.First().EnglishName);

    public Shaper Shaper => shaper;

    public PaperFormats Formats => formats;

    public Block Text(string text, TextStyle style, Align align = Align.Left, bool keepWithNext = false) => Spans([new Span(text, style)], align, keepWithNext);

    /// <summary>What somebody wrote in sentences, set to the side its writing begins at.</summary>
    public Block Prose(string text, TextStyle style) => Text(text, style, Align.Start);

    public Block Spans(IReadOnlyList<Span> spans, Align align = Align.Left, bool keepWithNext = false) =>
        new TextBlock(shaper, spans, align, LeadingOf(spans.Max(span => span.Style.Size))) { KeepWithNext = keepWithNext };

    private static float LeadingOf(float size) => size switch { <= 6.6f => 7.5f, <= 7.6f => 9, <= 8.5f => 11.25f, <= 10 => 13.5f, <= 13 => 16.5f, <= 17 => 21, _ => 30 };

    /// <summary>
    /// Figures of one column with their decimal points under each other: what one has fewer digits after the point is made up
    /// with figure spaces. Texts without a figure come back as they are.
    /// </summary>
    public IReadOnlyList<string> OnThePoint(IEnumerable<string> figures)
    {
        var point = formats.Culture.NumberFormat.NumberDecimalSeparator;
        var all = figures.ToList();
        int Digits(string figure) => figure.LastIndexOf(point, StringComparison.Ordinal) is var at and >= 0 ? figure.Length - at - point.Length : -1;
        var most = all.Select(Digits).DefaultIfEmpty(-1).Max();
        return [.. all.Select(figure => most < 0 ? figure : figure + (Digits(figure) < 0 ? "\u2008" : "") + new string('\u2007', most - Math.Max(0, Digits(figure))))];
    }

    /// <summary>A label over what it names.</summary>
    public Block Labelled(string label, params IEnumerable<Block> blocks) => new Stack([Text(label, SmallQuiet), new Spacer(1), .. blocks]);

    public Block Lines(IEnumerable<string?> lines, TextStyle style) =>
        new Stack([.. lines.Where(line => !string.IsNullOrWhiteSpace(line)).Select(line => Text(line!, style))]);

    /// <summary>Name and value in two columns, values under each other.</summary>
    public Block Pairs(IEnumerable<(string Name, string? Value)> pairs, TextStyle? valueStyle = null) => new Table(
        [new Column(0), new Column(1, 9)],
        null,
        [.. pairs.Where(pair => !string.IsNullOrWhiteSpace(pair.Value)).Select(pair => new Row([Text(pair.Name, Quiet), Text(pair.Value!, valueStyle ?? Body)]) { Ruled = false })],
        Palette.Line,
        padding: 0);

    public Block Points(IEnumerable<string> points) => new Stack([.. points.Select(Point)], 2);

    private Table Point(string text) => new([new Column(0), new Column(1, 6)], null, [new Row([Text("–", Quiet), Prose(text, Body)]) { Ruled = false }], Palette.Line, padding: 0);

    /// <summary>The hairline and the air before a section.</summary>
    public static IEnumerable<Block> Break() =>
        [new Spacer(3 * Step) { KeepWithNext = true }, new Rule(Palette.Line, 0.5f) { KeepWithNext = true }, new Spacer(2.5f * Step) { KeepWithNext = true }];

    /// <summary>A section whose name stands in the margin.</summary>
    public IEnumerable<Block> Section(string name, params IEnumerable<Block> body) => [.. Break(), Beside(name, new Stack([.. body], 2 * Step))];

    public Block Beside(string? name, Block body) => new Section(name is null ? null : Text(name, Strong), body, Margin, Gutter);

    /// <summary>A section that needs the whole width; its name stands above.</summary>
    public IEnumerable<Block> WideSection(string name, string? note, params IEnumerable<Block> body) =>
    [
        .. Break(),
        note is null ? Text(name, Strong, keepWithNext: true) : Spans([new Span(name, Strong), new Span("   ", Body), new Span(note, SmallQuiet)], keepWithNext: true),
        new Spacer(2 * Step) { KeepWithNext = true },
        .. body,
    ];

    public IEnumerable<Block> TextSection(string name, string? text) => string.IsNullOrWhiteSpace(text) ? [] : Section(name, Prose(text, Body));

    public IEnumerable<Block> PointsSection(string name, IReadOnlyList<string> points) => points.Count == 0 ? [] : Section(name, Points(points));

    public IEnumerable<Block> Cautions(IReadOnlyList<Caution> cautions) =>
        cautions.Count == 0 ? [] : Section("Caution", [.. cautions.Distinct().Order().Select(caution => Mark("▲", CautionTexts.Of(caution))), Text(CautionTexts.Always, Body)]);

    private Table Mark(string mark, string text)
    {
        var colon = text.IndexOf(':', StringComparison.Ordinal) + 1;
        return new([new Column(0), new Column(1, 6)], null,
            [new Row([Text(mark, Strong), Spans([new Span(text[..colon], Strong), new Span(text[colon..], Body)])]) { Ruled = false }], Palette.Line, padding: 0);
    }

    public IEnumerable<Block> Conditions(IReadOnlyList<string> conditions) =>
        conditions.Count == 0 ? [] : Section("Conditions", [.. conditions.Select(condition => Prose(condition, Small))]);

    /// <summary>Title and number on the left, the shop on the right, under one line of the accent.</summary>
    public IEnumerable<Block> Head(string title, string number, ShopFacts shop)
    {
        var name = Text(shop.Name, Large);
        var address = Lines([.. shop.AddressLines, CountryName(shop.Country)], SmallQuiet);
        var contact = Lines([shop.Phone, shop.Email, shop.Website, shop.TaxNumber is null ? null : $"{TaxWord(shop.Country)} {shop.TaxNumber}", shop.RegistrationNumber is null ? null : $"Reg. no. {shop.RegistrationNumber}"], SmallQuiet);
        return
        [
            new Rule(Palette.Accent, 2),
            new Spacer(5 * Step),
            Thirds(
                new Stack([Text(title, Title), Text(number, Large with { Weight = Weight.Regular, Color = Palette.Accent })]),
                new Stack([name, new Spacer(Step), address]),
                new Stack([new Spacer(16.5f + Step), contact])),
            new Spacer(6 * Step),
        ];
    }

    /// <summary>The head and the facts below it stand on the same three columns.</summary>
    public static Columns Thirds(Block first, Block second, Block third) => new([(first, 1.08f), (second, 1.12f), (third, 1.05f)], 18);

    public Block Customer(PartyFacts party, ShopFacts shop) => Labelled("Customer", Text(party.Name, Strong), Lines(
        [
            .. party.AddressLines,
            party.Country is { } country && !country.Equals(shop.Country, StringComparison.OrdinalIgnoreCase) ? CountryName(country) : null,
            party.TaxNumber is null ? null : $"{TaxWord(party.Country ?? shop.Country)} {party.TaxNumber}",
            party.Email,
            party.Phone,
        ], Body));

    public Block Camera(CameraFacts camera) => Labelled("Camera", Text(NameOf(camera), Strong), Lines(DetailsOf(camera), Body));

    public static string NameOf(CameraFacts camera) => string.Join(' ', new[] { camera.Maker, camera.Model, camera.Variant }.Where(part => !string.IsNullOrWhiteSpace(part)));

    public static IEnumerable<string?> DetailsOf(CameraFacts camera) =>
    [
        camera.Format,
        Numbered("Body", null, camera.BodySerial),
        Numbered("Lens", camera.Lens, camera.LensSerial),
        Numbered("Shutter", camera.ShutterKind is null ? camera.Shutter : camera.Shutter is null ? camera.ShutterKind : $"{camera.Shutter} ({camera.ShutterKind})", camera.ShutterSerial),
    ];

    private static string? Numbered(string what, string? name, string? serial) => (name, serial) switch
    {
        (null, null) => null,
        (null, _) => $"{what} no.\u00A0{Unbroken(serial)}",
        (_, null) => $"{what} {name}",
        _ => $"{what} {name}, no.\u00A0{Unbroken(serial)}",
    };

    private static string Unbroken(string serial) => serial.Replace(' ', '\u00A0');

    /// <summary>One line on a label, its baseline set by hand: smaller type first, an ellipsis last.</summary>
    public void Fit(Ink ink, string text, TextStyle style, float x, float baseline, float width) =>
        ink.Text(new OneLine(shaper, text, style, style.Size * 0.72f, style.Size).Fit(width), x, baseline);

    /// <summary>The mark after which nothing follows.</summary>
    public IEnumerable<Block> End(string what) =>
    [
        new Spacer(5 * Step),
        new Table([new Column(1), new Column(0, 9), new Column(1, 9)], null,
            [new Row([new Ornament(), Text($"End of {what}", SmallQuiet, Align.Center), new Ornament()]) { Ruled = false }], Palette.Line, padding: 0),
    ];

    /// <summary>Australian law asks for the number by its name (GST Act s 29-70).</summary>
    public static string TaxWord(string country) => country == "AU" ? "ABN" : "Tax no.";

    public static string CountryName(string code) => Countries.GetValueOrDefault(code.ToUpperInvariant(), code.ToUpperInvariant());

    /// <summary>A hairline at the height of small text.</summary>
    private sealed class Ornament : Block
    {
        public override float Height(float width) => 11.25f;

        public override void Draw(Ink ink, float x, float y, float width) => ink.Line(x, y + 5.6f, x + width, y + 5.6f, Palette.Line, 0.5f);
    }
}
