using RepairShop.Domain.Cameras;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>How a sheet and its lists put dates, hours and things into words.</summary>
public static class SheetText
{
    /// <summary>"3 Nov", with the year when it is another one.</summary>
    public static string Day(ShopFace face, DateOnly day) =>
        day.ToString(day.Year == face.Today.Year ? "d MMM" : "d MMM yyyy", face.Culture);

    public static string Day(ShopFace face, DateTimeOffset at) => Day(face, DateOnly.FromDateTime(face.Local(at).DateTime));

    public static string Words(Arrival how) => how switch
    {
        Arrival.Post => "by post",
        Arrival.Courier => "by courier",
        _ => "brought in",
    };

    public static string Words(ShutterKind kind) => kind switch
    {
        ShutterKind.BetweenLens => "between-lens shutter",
        ShutterKind.FocalPlane => "focal-plane shutter",
        ShutterKind.None => "no shutter",
        _ => "",
    };

    /// <summary>Everything that tells this camera from its sisters, in one line.</summary>
    public static string Line(SheetCamera camera)
    {
        var parts = new List<string>();
        if (camera.Format.Length > 0)
            parts.Add(camera.Format);
        if (camera.BodySerial.Length > 0)
            parts.Add("body " + camera.BodySerial);
        if (camera.Lens.Length > 0 || camera.LensSerial.Length > 0)
            parts.Add(camera.LensSerial.Length > 0 ? $"{(camera.Lens.Length > 0 ? camera.Lens : "lens")} no. {camera.LensSerial}" : camera.Lens);
        var shutter = string.Join(' ', new[] { camera.Shutter, camera.ShutterSerial, Words(camera.ShutterKind) }.Where(text => text.Length > 0));
        if (shutter.Length > 0)
            parts.Add(shutter);
        var timed = camera.MarkedSpeeds.Where(mark => mark is not ("B" or "T")).ToList();
        if (timed.Count > 1)
            parts.Add($"{timed[0]} to {timed[^1]}");
        return string.Join(" · ", parts);
    }
}
