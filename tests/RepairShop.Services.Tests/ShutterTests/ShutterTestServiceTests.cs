using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.Checks;
using RepairShop.Services.ShutterTests;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.ShutterTests;

public sealed class ShutterTestServiceTests : IDisposable
{
    private readonly PostgresServer server;
    private readonly CultureInfo culture = CultureInfo.CurrentCulture;

    public ShutterTestServiceTests(PostgresServer server)
    {
        this.server = server;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("en-GB");
    }

    private static CancellationToken Ct => Workshop.Cancel;

    public void Dispose() => CultureInfo.CurrentCulture = culture;

    private static ShutterTyped Typed(params (string Mark, string Text)[] speeds) =>
        new("Light gate", 0.01, 20.5, "", [.. speeds.Select(speed => new SpeedTyped(speed.Mark, speed.Text))], 0, Guid.CreateVersion7());

    private static Task<Result<Guid>> Save(Workshop shop, Guid repair, ShutterTyped typed, Guid? test = null, Phase phase = Phase.AsReceived) =>
        shop.Do<ShutterTestService, Result<Guid>>(tests => tests.SaveAsync(repair, phase, test, typed, Ct));

    private static Task<ShutterForm> Form(Workshop shop, Guid repair, Phase phase = Phase.AsReceived, Guid? test = null) =>
        shop.Do<ShutterTestService, ShutterForm>(async tests => (await tests.FormAsync(repair, phase, test, false, Ct)).Value!);

    private static SpeedRow Row(ShutterForm form, string mark) => form.Rows.Single(row => row.Mark == mark);

    [Fact]
    public async Task Readings_are_kept_to_the_letter_and_give_their_figures()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        Assert.True((await Save(shop, repair, Typed(("1/125", "8,1 8.2 8.3 ms"), ("1", "1.02 s; 1,04 s"), ("1/2", "½")))).IsDone);
        var form = await Form(shop, repair);
        Assert.Equal(["8,1", "8.2", "8.3 ms"], Row(form, "1/125").Readings.Select(reading => reading.Typed));
        Assert.Equal(["1.02 s", "1,04 s"], Row(form, "1").Readings.Select(reading => reading.Typed));
        Assert.Equal(["½"], Row(form, "1/2").Readings.Select(reading => reading.Typed));
        var figures = Row(form, "1/125").Figures!;
        Assert.Equal(3, figures.Seconds.Count);
        Assert.Equal(0.0082, figures.Seconds.Mean, 1e-12);
        Assert.Equal(0.0001, figures.Seconds.StandardDeviation!.Value, 1e-12);
        // log2(0.0082 × 128), worked out apart: 1/125 stands for 1/128 s.
        Assert.Equal(0.0698396, figures.ErrorStops!.Value, 1e-6);
        Assert.Equal(Verdict.Within, figures.Verdict);
    }

    [Fact]
    public async Task Without_a_stated_step_the_last_digit_counts_in_the_unit_of_the_list()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Save(shop, repair, Typed(("1/125", "8.1 8.1 8.1 ms")) with { ResolutionMilliseconds = null });
        // Scatter is nothing; the step is 0.1 ms: U = 1.96 × 0.1/√12 = 0.0566 ms (JCGM 100:2008, F.2.2.1; infinite degrees of freedom).
        Assert.Equal(0.0566e-3, Row(await Form(shop, repair), "1/125").Figures!.Uncertainty!.Expanded, 0.0001e-3);
    }

    [Fact]
    public async Task One_bad_text_saves_nothing_and_each_field_has_its_sentence()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var refused = Assert.IsType<ReadingsRefused>((await Save(shop, repair,
            Typed(("1/125", "8.1 ms"), ("1/60", "1/0"), ("1/30", "abc"), ("1/15", "-3 ms"), ("B", "2 s")))).Failure);
        Assert.Equal(["Speeds[1].Text", "Speeds[2].Text", "Speeds[3].Text", "Speeds[4].Text"], refused.Fields.Select(field => field.Field));
        Assert.Contains("“1/0”", refused.Fields[0].Sentence);
        Assert.Contains("“abc”", refused.Fields[1].Sentence);
        Assert.Contains("below zero", refused.Fields[2].Sentence);
        Assert.StartsWith("B stays open", refused.Fields[3].Sentence);
        Assert.False(await shop.Db(db => db.Readings.AnyAsync(Ct)));
    }

    [Fact]
    public async Task Later_readings_are_added_to_the_same_session()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var test = (await Save(shop, repair, Typed(("1/125", "8.1 ms")))).Value;
        var form = await Form(shop, repair);
        Assert.True((await Save(shop, repair, Typed(("1/125", "8.3 ms")) with { Version = form.Head.Version }, test)).IsDone);
        var row = Row(await Form(shop, repair), "1/125");
        Assert.Equal(["8.1 ms", "8.3 ms"], row.Readings.Select(reading => reading.Typed));
        Assert.Equal(2, row.Figures!.Seconds.Count);
    }

    [Fact]
    public async Task Readings_from_two_tabs_are_all_kept()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var test = (await Save(shop, repair, Typed(("1/125", "8.1 ms")))).Value;
        var version = (await Form(shop, repair)).Head.Version;
        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(i =>
            Save(shop, repair, Typed(("1/125", $"8.{i} ms")) with { Version = version }, test)));
        Assert.All(answers, answer => Assert.True(answer.IsDone));
        Assert.Equal(7, Row(await Form(shop, repair), "1/125").Readings.Count);
    }

    [Fact]
    public async Task Two_tabs_that_change_the_instrument_see_both_values()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var test = (await Save(shop, repair, Typed(("1/125", "8.1 ms")))).Value;
        var version = (await Form(shop, repair)).Head.Version;
        Assert.True((await Save(shop, repair, Typed() with { Instrument = "Gate A", Version = version }, test)).IsDone);
        var changed = Assert.IsType<ChangedMeanwhile>((await Save(shop, repair, Typed() with { Instrument = "Gate B", Version = version }, test)).Failure);
        Assert.Equal(new FieldDifference("Instrument", "Gate A", "Gate B"), Assert.Single(changed.Differences));
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_kept_once()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var typed = Typed(("1/125", "8.1 8.2 ms"));
        var first = await Save(shop, repair, typed);
        Assert.Equal(first.Value, (await Save(shop, repair, typed)).Value);
        Assert.Equal(1, await shop.Db(db => db.ShutterTests.CountAsync(Ct)));
        await Save(shop, repair, typed with { Speeds = [new("1/125", "8.1 8.2 8.3 ms")] });
        Assert.Equal(5, await shop.Db(db => db.Readings.CountAsync(Ct)));
    }

    [Fact]
    public async Task A_reading_struck_out_stays_with_its_reason_and_counts_no_more()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Save(shop, repair, Typed(("1/125", "8.1 8.2 80 ms")));
        var slip = Row(await Form(shop, repair), "1/125").Readings[2].Id;
        Task<Result> Strike(string reason) => shop.Do<ShutterTestService, Result>(tests => tests.StrikeOutAsync(repair, slip, reason, Ct));
        Assert.IsType<StrikeOutReasonMissing>((await Strike(" ")).Failure);
        Assert.True((await Strike("lamp was moved")).IsDone);
        var row = Row(await Form(shop, repair), "1/125");
        Assert.Equal((3, 2), (row.Readings.Count, row.Figures!.Seconds.Count));
        Assert.Equal("lamp was moved", row.Readings[2].StruckOutReason);
        await shop.Do<ShutterTestService, Result>(tests => tests.CountAgainAsync(repair, slip, Ct));
        Assert.Equal(3, Row(await Form(shop, repair), "1/125").Figures!.Seconds.Count);
    }

    [Fact]
    public async Task The_rules_of_the_day_are_frozen_into_the_test()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Save(shop, repair, Typed(("1/125", "10 10.1 10.2 ms")));
        var before = Row(await Form(shop, repair), "1/125").Figures!;
        await shop.Db(db => db.Shop.ExecuteUpdateAsync(set => set
            .SetProperty(row => row.SlowLimitStops, 2).SetProperty(row => row.LiteralMarks, true), Ct));
        var after = Row(await Form(shop, repair), "1/125").Figures!;
        Assert.Equal((before.ErrorStops, before.LimitStops, Verdict.Outside), (after.ErrorStops, after.LimitStops, after.Verdict));
    }

    [Fact]
    public async Task An_old_dial_is_read_literally_whatever_the_shop_has_set()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair((_, camera) => camera.MarkedSpeeds = ["1", "1/2", "1/5", "1/25", "1/50", "1/100", "1/250"])).Id;
        await Save(shop, repair, Typed(("1/250", "4 4 ms")));
        Assert.Equal(0, Row(await Form(shop, repair), "1/250").Figures!.ErrorStops!.Value, 1e-9);
    }

    [Fact]
    public async Task A_camera_without_marks_is_asked_for_them_first()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair((_, camera) => camera.MarkedSpeeds = [])).Id;
        Assert.IsType<NoMarkedSpeeds>((await Save(shop, repair, Typed(("1/125", "8 ms")))).Failure);
        Task<Result> Marks(string? series, string? typed) => shop.Do<ShutterTestService, Result>(tests => tests.SetMarksAsync(repair, series, typed, Ct));
        Assert.IsType<ReadingRefused>((await Marks(null, "1/0")).Failure);
        Assert.IsType<ReadingRefused>((await Marks(null, "")).Failure);
        Assert.True((await Marks(null, "1/100 1/50 B 1/25")).IsDone);
        Assert.Equal("1/25 1/50 1/100 B", (await Form(shop, repair)).Marks);
        Assert.True((await Marks("modern-500", "")).IsDone);
        Assert.Equal(11, (await Form(shop, repair)).Rows.Count);
    }

    [Fact]
    public async Task Before_and_after_stand_side_by_side_for_table_chart_and_record()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Save(shop, repair, Typed(("1/125", "12 12.1 12.2 ms"), ("1/60", "20 20.1 ms")));
        await Save(shop, repair, Typed(("1/125", "8 8.1 8.2 ms")), phase: Phase.AfterService);
        var both = await shop.Do<ShutterTestService, BeforeAndAfter>(tests => tests.BeforeAndAfterAsync(repair, Ct));
        Assert.Equal(["1/60", "1/125"], both.Rows.Select(row => row.MarkedSpeed));
        var row = both.Rows[1];
        Assert.Equal((LimitVerdict.Outside, LimitVerdict.Within), (row.AsReceived!.Verdict!.Value, row.AfterService!.Verdict!.Value));
        Assert.Null(both.Rows[0].AfterService);
        Assert.Equal("Light gate", both.AsReceived!.Instrument);
        Assert.Equal(0.0121, Row(await Form(shop, repair, Phase.AfterService), "1/125").Before!.Seconds.Mean, 1e-9);
    }

    [Fact]
    public async Task Working_out_counts_stored_and_typed_together_and_saves_nothing()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var test = (await Save(shop, repair, Typed(("1/125", "8.0 ms")))).Value;
        var preview = await shop.Do<ShutterTestService, ShutterPreview>(tests =>
            tests.WorkOutAsync(repair, Phase.AsReceived, test, Typed(("1/125", "8.2 ms"), ("1/60", "abc")), Ct));
        Assert.Equal(2, preview.Rows.Single(row => row.Mark == "1/125").Figures!.Seconds.Count);
        Assert.Equal("Speeds[1].Text", Assert.Single(preview.Refused).Field);
        Assert.Equal(1, await shop.Db(db => db.Readings.CountAsync(Ct)));
    }

    [Theory]
    [InlineData(0.0, null, typeof(ResolutionOutOfRange))]
    [InlineData(-1.0, null, typeof(ResolutionOutOfRange))]
    [InlineData(double.NaN, null, typeof(ResolutionOutOfRange))]
    [InlineData(1000.1, null, typeof(ResolutionOutOfRange))]
    [InlineData(null, -30.1, typeof(TemperatureOutOfRange))]
    [InlineData(null, 60.1, typeof(TemperatureOutOfRange))]
    [InlineData(null, double.NaN, typeof(TemperatureOutOfRange))]
    [InlineData(1000.0, 60.0, null)]
    [InlineData(null, -30.0, null)]
    public async Task Step_and_temperature_have_their_bounds(double? step, double? celsius, Type? refusal)
    {
        await using var shop = await Workshop.OpenAsync(server);
        var saved = await Save(shop, (await shop.Repair()).Id, Typed(("1", "1 s")) with { ResolutionMilliseconds = step, RoomTemperature = celsius });
        Assert.Equal(refusal, saved.Failure?.GetType());
    }

    [Fact]
    public async Task A_session_without_instrument_or_reading_is_refused()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        Assert.IsType<InstrumentMissing>((await Save(shop, repair, Typed(("1", "1 s")) with { Instrument = " " })).Failure);
        Assert.IsType<NoReadingsTyped>((await Save(shop, repair, Typed(("1", "  ")))).Failure);
    }
}
