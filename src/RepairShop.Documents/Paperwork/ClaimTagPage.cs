using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>The page the customer takes home, with a tag to cut off and tie to the camera.</summary>
internal static class ClaimTagPage
{
    private static readonly TextStyle Number = new(34, Weight.SemiBold, Palette.Ink);

    public static IReadOnlyList<Block> Compose(Composer c, ClaimTagFacts facts)
    {
        var f = c.Formats;
        return
        [
            .. c.Head("Claim tag", facts.PaperNumber, facts.Shop),
            Composer.Thirds(
                c.Customer(facts.Customer, facts.Shop),
                c.Camera(facts.Camera),
                c.Labelled("Taken in", c.Pairs(
                        [
                        ("Received", f.Day(facts.ReceivedOn)),
                        ("Wanted by", facts.WantedBy is { } day ? f.Day(day) : null),
                        ("Value", facts.DeclaredValue is { } value ? f.Money(value) : null),
                        ("Shelf", facts.Shelf),
                        ("Taken in by", facts.IssuedBy),
                    ]))),
            .. c.TextSection("Complaint", facts.Complaint),
            .. c.TextSection("Condition on receipt", facts.ConditionOnReceipt),
            .. c.TextSection("Came with it", string.Join(" · ", facts.CameWith)),
            .. c.TextSection("Agreed", facts.Agreement),
            .. c.Conditions(facts.Conditions),
            .. c.Section("Signed", new Columns([(Signature(c, "Handed in by"), 1), (Signature(c, "Taken in by"), 1)], 24)),
            .. c.Section("To collect", c.Text("Please bring this page. We give the camera only to whoever shows it or can be known as its owner.", Composer.Body)),
            new Spacer(6 * Composer.Step),
            Tag(c, facts),
            .. c.End($"claim tag {facts.PaperNumber}"),
        ];
    }

    private static Stack Signature(Composer c, string who) => new([new WritingLine(27, Palette.Soft), c.Text(who, Composer.SmallQuiet)]);

    /// <summary>What is tied to the camera: readable from the other side of the bench.</summary>
    private static Stack Tag(Composer c, ClaimTagFacts facts) => new(
        [
            new CutLine(),
            new Spacer(4 * Composer.Step),
            new Columns(
                [
                    (new Stack(
                    [
                        c.Text(facts.RepairNumber, Number),
                        new Spacer(Composer.Step),
                        c.Text(facts.CustomerSurname, Composer.Large),
                        c.Text(Composer.NameOf(facts.Camera), Composer.Large with { Weight = Weight.Regular }),
                        c.Text(string.Join(" · ", Serials(facts.Camera)), Composer.Body),
                        c.Text($"{facts.Shop.Name} · {c.Formats.Day(facts.ReceivedOn)}", Composer.SmallQuiet),
                    ]), 3),
                    (new QrBlock(facts.RepairUrl, 96, Palette.Ink, right: true), 1),
                ],
                18),
            new Spacer(4 * Composer.Step),
            new CutLine(),
        ], together: true);

    public static IEnumerable<string> Serials(CameraFacts camera)
    {
        if (camera.BodySerial is { } body)
            yield return $"body {body}";
        if (camera.LensSerial is { } lens)
            yield return $"lens {lens}";
        if (camera.ShutterSerial is { } shutter)
            yield return $"shutter {shutter}";
    }

    private sealed class CutLine : Block
    {
        public override float Height(float width) => 1;

        public override void Draw(Ink ink, float x, float y, float width) => ink.Line(x, y, x + width, y, Palette.Soft, 0.7f, dashed: true);
    }
}
