using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Labour;

public sealed record LabourEntryNotFound() : NotFound("This entry of hours is not there any more.");

public sealed record LengthNotRead(string Name, string Typed)
    : Invalid(Name, $"“{Typed}” is not a length of time: write 1:30, 1.5 h or 90 min.");

public sealed record LengthNegative(string Name, string Typed)
    : Invalid(Name, $"“{Typed}” is less than nothing: write how long the work took, such as 1:30.");

public sealed record LengthZero(string Name, string Typed)
    : Invalid(Name, $"“{Typed}” is no time at all: write how long the work took, such as 0:15.");

public sealed record LengthOverADay(string Name, string Typed)
    : Invalid(Name, $"“{Typed}” is more than 24 hours: for minutes write 90 min, for several days one entry a day.");

/// <param name="Name">Which of the two times.</param>
/// <param name="Time">As typed.</param>
/// <param name="Day">The day the clocks went forward.</param>
public sealed record TimeDoesNotExist(string Name, TimeOnly Time, DateOnly Day)
    : Invalid(Name, $"{Time:HH:mm} did not exist on {DayText.Write(Day)}, as the clocks went forward: write a time before or after the gap.");

/// <param name="Name">Which of the two times.</param>
/// <param name="Time">As typed.</param>
/// <param name="Day">The day the clocks went back.</param>
public sealed record TimeHappenedTwice(string Name, TimeOnly Time, DateOnly Day)
    : Invalid(Name, $"{Time:HH:mm} came twice on {DayText.Write(Day)}, as the clocks went back: say below which of the two you mean.");

public sealed record SpanIsEmpty(string Name, TimeOnly Time)
    : Invalid(Name, $"From and to are both {Time:HH:mm}: write when the work ended.");

/// <summary>An end before the start reads as the next day, but nobody works through from the afternoon to the next morning.</summary>
public sealed record TooLongAcrossMidnight(string Name, TimeOnly From, TimeOnly To, int Minutes)
    : Invalid(Name, $"{From:HH:mm} to {To:HH:mm} would be {LengthText.Write(Minutes)} across midnight: check the two times.");

public sealed record WorkNotYetDone(string Name, string When)
    : Invalid(Name, $"{When} has not come yet: write hours after the work.");

public sealed record WorkBeforeBookingIn(string Name, DateOnly Day, DateOnly BookedOn)
    : Invalid(Name, $"{DayText.Write(Day)} is before the camera was booked in on {DayText.Write(BookedOn)}: check the day.");

public sealed record TimesOrLengthMissing()
    : Invalid("Length", "Write from and to, or a length such as 1:30.");

/// <param name="Name">Which of the two times is empty.</param>
public sealed record OtherTimeMissing(string Name) : Invalid(Name, Name == "To"
    ? "To is empty: write when the work ended, or take “from” out and write a length."
    : "From is empty: write when the work began, or take “to” out and write a length.");

public sealed record TimesAndLength()
    : Invalid("Length", "Write either from and to, or a length, not both.");

public sealed record CorrectionReasonMissing()
    : Invalid("Reason", "Say in a word why the entry is changed: it is kept beside the old value.");

/// <param name="Number">The repair the other entry is on.</param>
/// <param name="From">When the other entry starts, in the workshop's time.</param>
/// <param name="To">When it ends; empty while its clock runs.</param>
public sealed record OverlapsAnotherEntry(string Number, string From, string To) : Conflict(To.Length == 0
    ? $"Your clock has been running on repair {Number} since {From}: stop it, or write a time before that."
    : $"This overlaps your entry on repair {Number} from {From} to {To}: nobody works on two cameras at once, so change one of them.");

/// <summary>The same of times that were typed, at their field.</summary>
public sealed record TimesOverlap(OverlapsAnotherEntry Other) : Invalid("From", Other.Message);

public sealed record ClockRunsAlready(string Number)
    : Conflict($"Your clock is already running on repair {Number}: stop it first.");

public sealed record NoClockRunning() : Conflict("No clock of yours is running: it was stopped before, perhaps in another window.");

/// <param name="Number">The repair the clock runs on.</param>
/// <param name="Since">When it was started, in the workshop's time.</param>
public sealed record ClockForgotten(string Number, string Since)
    : Conflict($"Your clock has been running on repair {Number} since {Since}, more than 12 hours: say when you really stopped.");

/// <param name="Started">When the clock was started, in the workshop's time.</param>
/// <param name="Now">What the server's clock says now.</param>
public sealed record ClockWentBack(string Started, string Now)
    : Conflict($"The clock was started at {Started}, but it is only {Now} now: the computer's clock was set back. Put it right, or write from and to by hand.");

public sealed record StopBeforeStart(string Name, string Started)
    : Invalid(Name, $"The clock was started at {Started}: write a time after that.");

public sealed record ClockOverADay(string Name, string Started)
    : Invalid(Name, $"The clock was started at {Started}, more than 24 hours before: write an earlier end, and add the rest as entries of their own.");
