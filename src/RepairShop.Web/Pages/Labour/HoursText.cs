using RepairShop.Domain.Labour;
using RepairShop.Services.Labour;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Pages.Labour;

/// <summary>When somebody worked, in words.</summary>
public static class HoursText
{
    /// <summary>"09:15–11:00", "22:30–00:45 next day", "since 09:15", or nothing for a length.</summary>
    public static string When(LabourLine line) => (line.From, line.To) switch
    {
        ({ } from, { } to) => $"{from:HH:mm}–{to:HH:mm}{(line.CrossesMidnight ? " next day" : "")}",
        ({ } from, null) => $"since {from:HH:mm}",
        _ => "",
    };

    public static string Old(LabourOldValue before, ShopFace face) => string.Join(", ", new[]
    {
        face.Date(before.Day),
        before is { From: { } from, To: { } to } ? $"{from:HH:mm}–{to:HH:mm}" : "",
        before.Minutes is { } minutes ? LengthText.Write(minutes) : "",
        before.Activity,
        before.Billable ? "" : "not billable",
    }.Where(part => part.Length > 0));
}
