using RepairShop.Domain.Labour;

namespace RepairShop.Services.Labour;

/// <summary>What a person typed about a stretch of work.</summary>
/// <param name="Day">Calendar day of the workshop on which the work began.</param>
/// <param name="From">Wall time; with <paramref name="To"/>, or else a length.</param>
/// <param name="To">Wall time; before <paramref name="From"/> means the next day.</param>
/// <param name="Length">As typed: 1:30, 1.5 h, 90 min.</param>
/// <param name="Which">Which of two equal times in the night the clocks go back.</param>
/// <param name="Version">Of the entry as it was when the form was opened; 0 for a new one.</param>
public sealed record LabourTyped(
    DateOnly Day, TimeOnly? From, TimeOnly? To, string? Length, WhichHour Which, string Activity, bool Billable, uint Version = 0);

/// <summary>An entry that was kept, with what the person should know about it.</summary>
/// <param name="Told">"Ends on the next day", or empty.</param>
public sealed record LabourKept(Guid EntryId, int Minutes, string Told);

/// <summary>The clock was started here; where it ran before, it was stopped.</summary>
/// <param name="StoppedOn">Number of the repair the clock ran on before; null when it stood still.</param>
/// <param name="StoppedMinutes">How long it had run there.</param>
public sealed record ClockStarted(string? StoppedOn, int StoppedMinutes);

/// <summary>The clock was stopped.</summary>
public sealed record ClockStopped(string Number, int Minutes);

/// <summary>A clock that runs now.</summary>
/// <param name="Since">When it was started, on the workshop's wall.</param>
/// <param name="Forgotten">It has run so long that the person is asked.</param>
public sealed record RunningView(Guid EntryId, Guid RepairId, string Number, DateTimeOffset Since, int Minutes, string Activity, bool Forgotten);

/// <summary>All hours of one repair.</summary>
public sealed record HoursView(
    IReadOnlyList<LabourLine> Lines, int TotalMinutes, int BillableMinutes, IReadOnlyList<string> Activities, RunningView? Mine, DateOnly Today);

/// <summary>One entry as it is shown; times are those of the workshop's wall.</summary>
public sealed record LabourLine(
    Guid Id,
    string Worker,
    DateOnly Day,
    DateTimeOffset? From,
    DateTimeOffset? To,
    int? Minutes,
    string Activity,
    bool Billable,
    bool Removed,
    uint Version,
    IReadOnlyList<LabourOldValue> Before)
{
    public bool IsRunning => From is not null && To is null && !Removed;

    public bool CrossesMidnight => From is { } from && To is { } to && from.Date != to.Date;
}

/// <summary>What an entry said before a correction.</summary>
public sealed record LabourOldValue(
    DateTimeOffset At, string By, string Reason, bool Removed, DateOnly Day, DateTimeOffset? From, DateTimeOffset? To, int? Minutes, string Activity, bool Billable);
