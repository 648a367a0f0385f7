using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Labour;

/// <summary>From what was typed to an entry's times, with every reason why not.</summary>
internal static class LabourRules
{
    /// <summary>Writes day, times and minutes into the entry.</summary>
    /// <returns>What the person should know, often empty.</returns>
    public static Result<string> Fill(LabourEntry entry, LabourTyped typed, Repair repair, TimeZoneInfo zone, DateTimeOffset now)
    {
        var hasLength = !string.IsNullOrWhiteSpace(typed.Length);
        var hasTimes = typed.From is not null || typed.To is not null;
        if (hasLength && hasTimes)
            return new TimesAndLength();
        if (DayWhyNot(typed.Day, repair, zone, now) is { } wrongDay)
            return wrongDay;
        (entry.WorkDate, entry.Activity, entry.Billable) = (typed.Day, typed.Activity.Trim(), typed.Billable);
        if (hasLength)
            return FillLength(entry, typed.Length!);
        return (typed.From, typed.To) switch
        {
            ({ } from, { } to) => FillSpan(entry, WorkSpan.Read(typed.Day, from, to, zone, typed.Which), zone, now),
            (null, null) => new TimesOrLengthMissing(),
            (null, _) => new OtherTimeMissing("From"),
            _ => new OtherTimeMissing("To"),
        };
    }

    private static Result<string> FillLength(LabourEntry entry, string text)
    {
        var length = LengthText.Read(text);
        if (!length.IsDone)
            return length.Failure;
        (entry.StartedAt, entry.EndedAt, entry.Minutes) = (null, null, length.Value);
        return "";
    }

    private static Result<string> FillSpan(LabourEntry entry, Result<WorkSpan> read, TimeZoneInfo zone, DateTimeOffset now)
    {
        if (!read.IsDone)
            return read.Failure;
        var span = read.Value;
        if (span.EndedAt > now)
            return new WorkNotYetDone("To", RunningClock.Wall(span.EndedAt, zone));
        (entry.StartedAt, entry.EndedAt, entry.Minutes) = (span.StartedAt, span.EndedAt, span.Minutes);
        return Told(span, zone);
    }

    private static string Told(WorkSpan span, TimeZoneInfo zone)
    {
        var from = WallClock.OnTheWall(span.StartedAt, zone);
        var to = WallClock.OnTheWall(span.EndedAt, zone);
        if (from.Offset != to.Offset)
            return $"The clocks changed in between: {LengthText.Write(span.Minutes)} really passed.";
        return span.CrossesMidnight ? $"It ends on the next day, {DayText.Write(DateOnly.FromDateTime(to.DateTime))}." : "";
    }

    private static Failure? DayWhyNot(DateOnly day, Repair repair, TimeZoneInfo zone, DateTimeOffset now)
    {
        if (day > WallClock.DayOf(now, zone))
            return new WorkNotYetDone("Day", DayText.Write(day));
        var booked = WallClock.DayOf(repair.BookedAt, zone);
        return day < booked ? new WorkBeforeBookingIn("Day", day, booked) : null;
    }
}
