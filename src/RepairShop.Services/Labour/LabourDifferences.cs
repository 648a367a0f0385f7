using RepairShop.Domain.Labour;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Labour;

/// <summary>What two people made of the same entry, field by field of the form.</summary>
internal static class LabourDifferences
{
    public static IReadOnlyList<FieldDifference> Between(LabourEntry stored, LabourTyped typed, TimeZoneInfo zone)
    {
        var isLength = stored.StartedAt is null;
        var fields = new FieldDifference[]
        {
            new("Day", DayText.Write(stored.WorkDate), DayText.Write(typed.Day)),
            new("From", Time(stored.StartedAt, zone), Time(typed.From)),
            new("To", Time(stored.EndedAt, zone), Time(typed.To)),
            new("Length", isLength ? LengthText.Write(stored.Minutes ?? 0) : "", LengthText.Read(typed.Length ?? "") is { IsDone: true, Value: var minutes } ? LengthText.Write(minutes) : ""),
            new("Activity", stored.Activity, typed.Activity.Trim()),
            new("Billable", YesNo(stored.Billable), YesNo(typed.Billable)),
        };
        return [.. fields.Where(field => field.Stored != field.Typed)];
    }

    private static string Time(DateTimeOffset? moment, TimeZoneInfo zone) =>
        moment is { } at ? Time(TimeOnly.FromDateTime(WallClock.OnTheWall(at, zone).DateTime)) : "";

    private static string Time(TimeOnly? time) => $"{time:HH:mm}";

    private static string YesNo(bool value) => value ? "yes" : "no";
}
