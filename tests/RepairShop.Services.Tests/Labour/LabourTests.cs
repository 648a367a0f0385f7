using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Labour;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Labour;

public sealed class LabourTests(PostgresServer server)
{
    private static CancellationToken Ct => Workshop.Cancel;

    private static LabourTyped Length(string text, string activity = "Cleaning", bool billable = true) =>
        new(new DateOnly(2026, 11, 24), null, null, text, WhichHour.NotSaid, activity, billable);

    private static LabourTyped Span(string from, string to, string day = "2026-11-23") =>
        new(DateOnly.Parse(day, CultureInfo.InvariantCulture), TimeOnly.Parse(from, CultureInfo.InvariantCulture), TimeOnly.Parse(to, CultureInfo.InvariantCulture), null, WhichHour.NotSaid, "Cleaning", true);

    private static Task<Result<LabourKept>> Add(Workshop shop, Repair repair, LabourTyped typed, Guid? by = null, Guid? once = null) =>
        shop.Do<LabourService, Result<LabourKept>>(hours => hours.AddAsync(repair.Id, typed, once ?? Guid.CreateVersion7(), Ct), by);

    private static Task<HoursView> Hours(Workshop shop, Repair repair) => shop.Do<LabourService, HoursView>(hours => hours.ForRepairAsync(repair.Id, Ct));

    [Fact]
    public async Task Lengths_and_stretches_add_up_and_unbillable_ones_apart()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        await Add(shop, repair, Length("1:30"));
        await Add(shop, repair, Length("20 min", "Tidying", billable: false));
        await Add(shop, repair, Span("09:30", "10:00"));
        var hours = await Hours(shop, repair);
        Assert.Equal((140, 120, 3), (hours.TotalMinutes, hours.BillableMinutes, hours.Lines.Count));
        Assert.Equal(["Cleaning", "Tidying"], hours.Activities);
        Assert.NotNull(await shop.Db(db => db.Repairs.Select(row => row.BenchAt).SingleAsync(Ct)));
    }

    [Fact]
    public async Task Work_across_midnight_is_kept_and_said()
    {
        await using var shop = await Workshop.OpenAsync(server);
        shop.Clock.Now = new DateTimeOffset(2026, 11, 25, 9, 0, 0, TimeSpan.Zero);
        var kept = await Add(shop, await shop.Repair(), Span("22:30", "00:45", "2026-11-24"));
        Assert.Equal((135, $"It ends on the next day, {DayText.Write(new DateOnly(2026, 11, 25))}."), (kept.Value!.Minutes, kept.Value.Told));
    }

    [Fact]
    public async Task The_night_the_clocks_go_back_counts_what_really_passed()
    {
        await using var shop = await Workshop.OpenAsync(server);
        shop.Clock.Now = new DateTimeOffset(2026, 10, 26, 9, 0, 0, TimeSpan.Zero);
        var repair = await shop.Repair((row, _) => row.BookedAt = shop.Clock.Now.AddDays(-9));
        var kept = await Add(shop, repair, Span("23:30", "02:30", "2026-10-24"));
        Assert.Equal((240, "The clocks changed in between: 4 h really passed."), (kept.Value!.Minutes, kept.Value.Told));
        Assert.IsType<TimeHappenedTwice>((await Add(shop, repair, Span("01:30", "02:30", "2026-10-25"))).Failure);
    }

    [Fact]
    public async Task An_overlap_names_the_other_entry_and_touching_is_none()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (repair, other) = (await shop.Repair(), await shop.Repair());
        await Add(shop, repair, Span("10:00", "11:00"));
        Assert.Equal(
            new TimesOverlap(new OverlapsAnotherEntry(repair.Number, OnTheDay(23, "10:00"), OnTheDay(23, "11:00"))),
            (await Add(shop, other, Span("10:59", "12:00"))).Failure);
        Assert.True((await Add(shop, other, Span("11:00", "12:00"))).IsDone);
        Assert.True((await Add(shop, other, Span("09:30", "10:00"))).IsDone);
        Assert.True((await Add(shop, other, Span("10:00", "11:00"), shop.Helper)).IsDone);
    }

    [Fact]
    public async Task Of_twelve_overlapping_entries_at_once_one_is_kept()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        await Add(shop, repair, Length("0:05")); // the bench time is set, so that the repair's row is not in the race
        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(i => Add(shop, repair, Span("10:00", $"11:{i:00}"))));
        Assert.Single(answers, answer => answer.IsDone);
        Assert.All(answers.Where(answer => !answer.IsDone), answer => Assert.IsType<TimesOverlap>(answer.Failure));
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_one_entry_and_a_changed_one_is_another()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var once = Guid.CreateVersion7();
        await Add(shop, repair, Length("0:30"), once: once);
        Assert.True((await Add(shop, repair, Length("0:30"), once: once)).IsDone);
        Assert.Single((await Hours(shop, repair)).Lines);
        Assert.True((await Add(shop, repair, Length("0:45"), once: once)).IsDone);
        Assert.Equal(75, (await Hours(shop, repair)).TotalMinutes);
    }

    [Fact]
    public async Task Days_to_come_and_days_before_booking_in_are_refused()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var today = new DateOnly(2026, 11, 24);
        Assert.IsType<WorkNotYetDone>((await Add(shop, repair, Length("1") with { Day = today.AddDays(1) })).Failure);
        Assert.IsType<WorkNotYetDone>((await Add(shop, repair, Span("08:00", "09:01", "2026-11-24"))).Failure);
        Assert.True((await Add(shop, repair, Span("08:00", "09:00", "2026-11-24"))).IsDone);
        Assert.Equal(
            new WorkBeforeBookingIn("Day", today.AddDays(-2), today.AddDays(-1)),
            (await Add(shop, repair, Length("1") with { Day = today.AddDays(-2) })).Failure);
    }

    [Fact]
    public async Task Times_and_length_are_one_or_the_other()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        Assert.IsType<TimesAndLength>((await Add(shop, repair, Span("08:00", "09:00") with { Length = "1" })).Failure);
        Assert.IsType<TimesOrLengthMissing>((await Add(shop, repair, Length(" "))).Failure);
        Assert.Equal(new OtherTimeMissing("To"), (await Add(shop, repair, Span("08:00", "09:00") with { To = null })).Failure);
        Assert.Equal(new OtherTimeMissing("From"), (await Add(shop, repair, Span("08:00", "09:00") with { From = null })).Failure);
        Assert.IsType<LengthNegative>((await Add(shop, repair, Length("-1"))).Failure);
        Assert.Empty((await Hours(shop, repair)).Lines);
    }

    [Fact]
    public async Task A_correction_keeps_the_old_value_with_its_reason()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var id = (await Add(shop, repair, Length("1:30"))).Value!.EntryId;
        Assert.IsType<CorrectionReasonMissing>((await Correct(shop, id, Length("2:00"), " ")).Failure);
        Assert.True((await Correct(shop, id, Length("2:00"), "forgot the reassembly")).IsDone);
        var line = Assert.Single((await Hours(shop, repair)).Lines);
        Assert.Equal(120, line.Minutes);
        var before = Assert.Single(line.Before);
        Assert.Equal((90, "forgot the reassembly", "Mender", false), (before.Minutes!.Value, before.Reason, before.By, before.Removed));
    }

    [Fact]
    public async Task What_is_taken_away_stays_readable_and_counts_no_more()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var id = (await Add(shop, repair, Span("10:00", "11:00"))).Value!.EntryId;
        var removed = await shop.Do<LabourService, Result>(hours => hours.RemoveAsync(id, "wrong camera", Ct));
        Assert.True(removed.IsDone);
        var hours = await Hours(shop, repair);
        Assert.Equal(0, hours.TotalMinutes);
        Assert.True(Assert.Single(hours.Lines).Removed);
        Assert.True((await Add(shop, repair, Span("10:00", "11:00"))).IsDone);
        Assert.IsType<LabourEntryNotFound>((await Correct(shop, id, Length("1"), "again")).Failure);
    }

    [Fact]
    public async Task Kept_old_values_can_not_be_changed_in_the_database()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var id = (await Add(shop, repair, Length("1:30"))).Value!.EntryId;
        await Correct(shop, id, Length("2:00"), "more");
        await Assert.ThrowsAsync<Npgsql.PostgresException>(() => shop.Db(db => db.LabourCorrections.ExecuteDeleteAsync(Ct)));
    }

    [Fact]
    public async Task Of_two_corrections_of_the_same_entry_the_later_is_shown_both_values()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var id = (await Add(shop, repair, Span("09:30", "10:00"))).Value!.EntryId;
        var opened = await Version(shop, id);
        Assert.True((await Correct(shop, id, Span("09:45", "10:30"), "looked at the wall")).IsDone);
        var second = Span("09:15", "10:00") with { Version = opened };
        var clash = await shop.Do<LabourService, Result<LabourKept>>(hours => hours.CorrectAsync(id, second, "looked at the phone", Ct));
        Assert.Equal(
            [new FieldDifference("From", "09:45", "09:15"), new FieldDifference("To", "10:30", "10:00")],
            Assert.IsType<ChangedMeanwhile>(clash.Failure).Differences);
        Assert.Equal(45, Assert.Single((await Hours(shop, repair)).Lines).Minutes);
    }

    [Fact]
    public async Task Of_corrections_sent_at_once_one_is_kept_and_no_old_value_is_lost()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var id = (await Add(shop, repair, Length("1:30"))).Value!.EntryId;
        var opened = await Version(shop, id);
        var answers = await Task.WhenAll(Enumerable.Range(1, 6).Select(hour => shop.Do<LabourService, Result<LabourKept>>(
            hours => hours.CorrectAsync(id, Length($"{hour} h") with { Version = opened }, "counted again", Ct))));
        Assert.Single(answers, answer => answer.IsDone);
        Assert.Equal(5, answers.Count(answer => answer.Failure is ChangedMeanwhile));
        Assert.Equal(90, Assert.Single(Assert.Single((await Hours(shop, repair)).Lines).Before).Minutes);
    }

    private static Task<uint> Version(Workshop shop, Guid id) =>
        shop.Db(db => db.LabourEntries.Where(row => row.Id == id).Select(row => row.Version).SingleAsync(Ct));

    /// <summary>As from a form that was opened just now.</summary>
    private static async Task<Result<LabourKept>> Correct(Workshop shop, Guid id, LabourTyped typed, string reason)
    {
        var now = typed with { Version = await Version(shop, id) };
        return await shop.Do<LabourService, Result<LabourKept>>(hours => hours.CorrectAsync(id, now, reason, Ct));
    }

    private static string OnTheDay(int day, string time) => $"{DayText.Write(new DateOnly(2026, 11, day))}, {time}";
}
