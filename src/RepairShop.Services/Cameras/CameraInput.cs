using RepairShop.Domain.Cameras;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Cameras;

/// <summary>A camera as typed; its dial as one text: "1 1/2 1/4 … 1/500 B".</summary>
public sealed record CameraInput
{
    public string Maker { get; init; } = "";
    public string Model { get; init; } = "";
    public string Variant { get; init; } = "";
    public string Format { get; init; } = "";
    public string BodySerial { get; init; } = "";
    public string Lens { get; init; } = "";
    public string LensSerial { get; init; } = "";
    public ShutterKind ShutterKind { get; init; }
    public string Shutter { get; init; } = "";
    public string ShutterSerial { get; init; } = "";
    public string MarkedSpeeds { get; init; } = "";
    public string Notes { get; init; } = "";

    internal Result WriteTo(Camera camera)
    {
        var dial = CameraRules.Dial(MarkedSpeeds);
        if (!dial.IsDone)
            return dial.Failure;
        camera.Maker = TypedText.OneLine(Maker);
        camera.Model = TypedText.OneLine(Model);
        camera.Variant = TypedText.OneLine(Variant);
        camera.Format = TypedText.OneLine(Format);
        camera.BodySerial = TypedText.OneLine(BodySerial);
        camera.Lens = TypedText.OneLine(Lens);
        camera.LensSerial = TypedText.OneLine(LensSerial);
        camera.ShutterKind = ShutterKind;
        camera.Shutter = TypedText.OneLine(Shutter);
        camera.ShutterSerial = TypedText.OneLine(ShutterSerial);
        if (!camera.MarkedSpeeds.SequenceEqual(dial.Value))
            camera.MarkedSpeeds = dial.Value;
        camera.Notes = TypedText.Lines(Notes);
        return CameraRules.Check(camera);
    }

    internal static CameraInput Of(Camera camera) => new()
    {
        Maker = camera.Maker,
        Model = camera.Model,
        Variant = camera.Variant,
        Format = camera.Format,
        BodySerial = camera.BodySerial,
        Lens = camera.Lens,
        LensSerial = camera.LensSerial,
        ShutterKind = camera.ShutterKind,
        Shutter = camera.Shutter,
        ShutterSerial = camera.ShutterSerial,
        MarkedSpeeds = string.Join(' ', camera.MarkedSpeeds),
        Notes = camera.Notes,
    };
}
