using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Cameras;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.Cameras;

namespace RepairShop.Web.Pages.Cameras;

/// <summary>A camera's fields as typed; used where one is changed or booked in.</summary>
public sealed class CameraFields
{
    [StringLength(120)]
    public string? Maker { get; set; }

    [StringLength(120)]
    public string? Model { get; set; }

    [StringLength(120)]
    public string? Variant { get; set; }

    [StringLength(60)]
    public string? Format { get; set; }

    [Display(Name = "Body serial"), StringLength(120)]
    public string? BodySerial { get; set; }

    [StringLength(200)]
    public string? Lens { get; set; }

    [Display(Name = "Lens serial"), StringLength(120)]
    public string? LensSerial { get; set; }

    [Display(Name = "Kind of shutter")]
    public ShutterKind ShutterKind { get; set; }

    [StringLength(120)]
    public string? Shutter { get; set; }

    [Display(Name = "Shutter serial"), StringLength(120)]
    public string? ShutterSerial { get; set; }

    /// <summary>Key of a <see cref="SpeedSeries"/>; what is typed in <see cref="MarkedSpeeds"/> wins.</summary>
    [Display(Name = "Speeds on the dial"), StringLength(40)]
    public string? Series { get; set; }

    [Display(Name = "Speeds on the dial"), StringLength(400)]
    public string? MarkedSpeeds { get; set; }

    [StringLength(4000), DataType(DataType.MultilineText)]
    public string? Notes { get; set; }

    public CameraInput ToInput() => new()
    {
        Maker = Maker ?? "",
        Model = Model ?? "",
        Variant = Variant ?? "",
        Format = Format ?? "",
        BodySerial = BodySerial ?? "",
        Lens = Lens ?? "",
        LensSerial = LensSerial ?? "",
        ShutterKind = ShutterKind,
        Shutter = Shutter ?? "",
        ShutterSerial = ShutterSerial ?? "",
        MarkedSpeeds = Dial(),
        Notes = Notes ?? "",
    };

    public static CameraFields Of(CameraInput input) => new()
    {
        Maker = input.Maker,
        Model = input.Model,
        Variant = input.Variant,
        Format = input.Format,
        BodySerial = input.BodySerial,
        Lens = input.Lens,
        LensSerial = input.LensSerial,
        ShutterKind = input.ShutterKind,
        Shutter = input.Shutter,
        ShutterSerial = input.ShutterSerial,
        MarkedSpeeds = input.MarkedSpeeds,
        Notes = input.Notes,
    };

    private string Dial() => !string.IsNullOrWhiteSpace(MarkedSpeeds) ? MarkedSpeeds
        : SpeedSeries.All.FirstOrDefault(series => series.Key == Series) is { } known ? string.Join(' ', known.Marks.Select(mark => mark.Text))
        : "";
}
