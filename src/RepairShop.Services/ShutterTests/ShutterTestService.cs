using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Labour;

namespace RepairShop.Services.ShutterTests;

/// <summary>Shutter tests of a repair: readings typed as photographers write them, and the figures behind them.</summary>
public sealed class ShutterTestService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <summary>What a test begun by a recording was measured with, until a person says more.</summary>
    public const string RecordedWith = "Light sensor, recorded and analysed by this book";

    /// <summary>The test asked for; without one, the newest of the phase; else an empty form with what the shop usually measures with.</summary>
    public async Task<Result<ShutterForm>> FormAsync(Guid repairId, Phase phase, Guid? testId, bool fresh, CancellationToken cancel)
    {
        var tests = await db.ShutterTests.AsNoTracking().Include(row => row.Readings)
            .Where(row => row.RepairId == repairId && row.Phase == phase).OrderByDescending(row => row.MeasuredAt).ToListAsync(cancel);
        var chosen = testId is null ? (fresh ? null : tests.FirstOrDefault()) : tests.Find(row => row.Id == testId);
        if (testId is not null && chosen is null)
            return new ShutterTestNotFound();
        var marks = await MarksAsync(repairId, cancel);
        var test = chosen ?? await NewAsync(repairId, phase, marks, cancel);
        var before = phase == Phase.AfterService ? await NewestAsync(repairId, Phase.AsReceived, cancel) : null;
        var zone = await LabourService.ZoneAsync(db, cancel);
        var head = new ShutterTyped(
            test.Instrument, test.ResolutionSeconds * 1000, test.RoomTemperatureCelsius, test.Note, [], test.Version, Guid.CreateVersion7());
        return new ShutterForm(
            chosen?.Id, phase, head, string.Join(' ', marks.Select(mark => mark.Text)), Rows(test, marks, test.Readings, before),
            [.. tests.Select(row => new TestChoice(row.Id, WallClock.OnTheWall(row.MeasuredAt, zone), row.Instrument, row.Readings.Count))],
            ShutterFigures.Words(test, CultureInfo.CurrentCulture));
    }

    /// <summary>Figures of what is stored and typed together; nothing is saved.</summary>
    public async Task<ShutterPreview> WorkOutAsync(Guid repairId, Phase phase, Guid? testId, ShutterTyped typed, CancellationToken cancel)
    {
        var marks = await MarksAsync(repairId, cancel);
        var test = testId is null
            ? await NewAsync(repairId, phase, marks, cancel)
            : await db.ShutterTests.AsNoTracking().Include(row => row.Readings).SingleOrDefaultAsync(row => row.Id == testId && row.RepairId == repairId, cancel)
                ?? await NewAsync(repairId, phase, marks, cancel);
        test.ResolutionSeconds = typed.ResolutionMilliseconds is > 0 and <= 1000 ? typed.ResolutionMilliseconds / 1000 : null;
        var read = TypedReadings.Read(typed.Speeds, test.Id, clock.GetUtcNow());
        var before = phase == Phase.AfterService ? await NewestAsync(repairId, Phase.AsReceived, cancel) : null;
        return new ShutterPreview(Rows(test, marks, [.. test.Readings, .. read.Readings], before), read.Refused);
    }

    /// <summary>Adds what was typed. If one text can't be read, nothing is saved and every refused field has its sentence.</summary>
    /// <returns>The test's id.</returns>
    public async Task<Result<Guid>> SaveAsync(Guid repairId, Phase phase, Guid? testId, ShutterTyped typed, CancellationToken cancel)
    {
        if (HeadWhyNot(typed) is { } refused)
            return refused;
        var marks = await MarksAsync(repairId, cancel);
        if (marks.Count == 0)
            return new NoMarkedSpeeds();
        var test = testId is null
            ? await NewAsync(repairId, phase, marks, cancel)
            : await db.ShutterTests.SingleOrDefaultAsync(row => row.Id == testId && row.RepairId == repairId && row.Phase == phase, cancel);
        if (test is null)
            return new ShutterTestNotFound();
        var read = TypedReadings.Read(typed.Speeds, test.Id, clock.GetUtcNow());
        if (read.Refused.Count > 0)
            return new ReadingsRefused(read.Refused);
        if (testId is null && read.Readings.Count == 0)
            return new NoReadingsTyped();
        if (testId is null)
            db.ShutterTests.Add(test);
        else
            db.Entry(test).Property(row => row.Version).OriginalValue = typed.Version;
        (test.Instrument, test.Note) = (typed.Instrument.Trim(), typed.Note.Trim());
        (test.ResolutionSeconds, test.RoomTemperatureCelsius) = (typed.ResolutionMilliseconds / 1000, typed.RoomTemperature);
        if (read.Readings.Count > 0 && await SentBeforeAsync(typed.Once, read.Readings, cancel) is { } before)
            return before;
        await AppendAsync(test.Id, read.Readings, typed.Once, cancel);
        return await KeepAsync(repairId, test.Id, typed.Once, cancel);
    }

    /// <summary>The reading stays on the page with its reason, and counts no more; an empty reason lets it count again.</summary>
    public async Task<Result> StrikeOutAsync(Guid repairId, Guid readingId, string? reason, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(reason))
            return new StrikeOutReasonMissing();
        return await MarkAsync(repairId, readingId, Domain.Shop.TypedText.Cut(reason.Trim(), 300), cancel);
    }

    public Task<Result> CountAgainAsync(Guid repairId, Guid readingId, CancellationToken cancel) => MarkAsync(repairId, readingId, null, cancel);

    /// <summary>Writes the marks of the camera's dial, from a row the trade knows or as typed.</summary>
    public async Task<Result> SetMarksAsync(Guid repairId, string? seriesKey, string? typed, CancellationToken cancel)
    {
        var series = SpeedSeries.All.FirstOrDefault(row => row.Key == seriesKey);
        var dial = string.IsNullOrWhiteSpace(typed) && series is not null ? new MarkedSpeedsOutcome(series.Marks, null) : MarkedSpeed.ParseDial(typed);
        if (dial.Refusal is { } refusal)
            return new ReadingRefused("Marks", refusal);
        var camera = await (
            from repair in db.Repairs
            join row in db.Cameras on repair.CameraId equals row.Id
            where repair.Id == repairId
            select row).SingleAsync(cancel);
        camera.MarkedSpeeds = [.. dial.Marks.OrderByDescending(mark => mark.LiteralSeconds ?? 0).Select(mark => mark.Text)];
        return await db.SaveAsync(cancel);
    }

    /// <summary>Newest as-received and after-service session side by side.</summary>
    public async Task<BeforeAndAfter> BeforeAndAfterAsync(Guid repairId, CancellationToken cancel)
    {
        var marks = await MarksAsync(repairId, cancel);
        var before = await NewestAsync(repairId, Phase.AsReceived, cancel);
        var after = await NewestAsync(repairId, Phase.AfterService, cancel);
        var zone = await LabourService.ZoneAsync(db, cancel);
        var all = With(marks, (before?.Readings ?? []).Concat(after?.Readings ?? []));
        var rows = all.Select(mark => ShutterFigures.Row(mark, before, after));
        return new BeforeAndAfter(
            [.. rows.OfType<Domain.Paperwork.ShutterRowFacts>()], await SessionAsync(before, zone, cancel), await SessionAsync(after, zone, cancel));
    }

    private async Task AppendAsync(Guid testId, List<Reading> readings, Guid once, CancellationToken cancel)
    {
        var last = await db.Readings.Where(row => row.ShutterTestId == testId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        foreach (var reading in readings)
            reading.Position += last;
        if (readings.Count > 0 && !await db.Readings.AnyAsync(row => row.Id == once, cancel))
            readings[0].Id = once;
        db.Readings.AddRange(readings);
    }

    /// <summary>The test that holds exactly these readings from the same form; null when the form is new or was changed.</summary>
    private async Task<Guid?> SentBeforeAsync(Guid once, List<Reading> readings, CancellationToken cancel)
    {
        if (await db.Readings.AsNoTracking().SingleOrDefaultAsync(row => row.Id == once, cancel) is not { } first)
            return null;
        var batch = await db.Readings.AsNoTracking().Where(row => row.ShutterTestId == first.ShutterTestId && row.ReadAt == first.ReadAt)
            .OrderBy(row => row.Position).ToListAsync(cancel);
        var same = batch.Select(row => (row.MarkedSpeed, row.Typed)).SequenceEqual(readings.Select(row => (row.MarkedSpeed, row.Typed)));
        return same ? first.ShutterTestId : null;
    }

    private async Task<Result<Guid>> KeepAsync(Guid repairId, Guid testId, Guid once, CancellationToken cancel)
    {
        var sentTwice = new NoReadingsTyped();
        var saved = await db.SaveAsync(cancel, ("pk_readings", sentTwice));
        if (saved.IsDone)
            return testId;
        if (saved.Failure != sentTwice)
            return saved.Failure;
        return await (
            from reading in db.Readings
            join test in db.ShutterTests on reading.ShutterTestId equals test.Id
            where reading.Id == once && test.RepairId == repairId
            select test.Id).SingleAsync(cancel);
    }

    private async Task<Result> MarkAsync(Guid repairId, Guid readingId, string? reason, CancellationToken cancel)
    {
        var reading = await db.Readings.SingleOrDefaultAsync(
            row => row.Id == readingId && db.ShutterTests.Any(test => test.Id == row.ShutterTestId && test.RepairId == repairId), cancel);
        if (reading is null)
            return new ReadingNotFound();
        reading.StruckOutReason = reason;
        return await db.SaveAsync(cancel);
    }

    private static Failure? HeadWhyNot(ShutterTyped typed)
    {
        if (string.IsNullOrWhiteSpace(typed.Instrument))
            return new InstrumentMissing();
        if (typed.ResolutionMilliseconds is { } step && !(step > 0 && step <= 1000))
            return new ResolutionOutOfRange(step);
        return typed.RoomTemperature is { } celsius && !(celsius >= -30 && celsius <= 60) ? new TemperatureOutOfRange(celsius) : null;
    }

    /// <summary>A new test takes the shop's rules of this day with it; changing them later moves nothing.</summary>
    private async Task<ShutterTest> NewAsync(Guid repairId, Phase phase, IReadOnlyList<MarkedSpeed> marks, CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var rule = SpeedSeries.RuleFor(marks, shop.LiteralMarks ? ReferenceRule.LiteralMark : ReferenceRule.TrueBinary);
        return new ShutterTest
        {
            RepairId = repairId,
            Phase = phase,
            MeasuredAt = clock.GetUtcNow(),
            MeasuredBy = person.RequiredId,
            Instrument = shop.DefaultInstrument,
            ResolutionSeconds = shop.DefaultResolutionSeconds,
            LiteralMarks = rule == ReferenceRule.LiteralMark,
            SlowLimitStops = shop.SlowLimitStops,
            FastLimitStops = shop.FastLimitStops,
            LimitBoundarySeconds = shop.LimitBoundarySeconds,
            LimitProvenance = shop.LimitProvenance,
        };
    }

    /// <summary>The test asked for, else a new one, which the caller saves.</summary>
    internal async Task<Result<ShutterTest>> FindOrBeginAsync(Guid repairId, Phase phase, Guid? testId, string instrument, CancellationToken cancel)
    {
        var tests = db.ShutterTests.Where(row => row.RepairId == repairId && row.Phase == phase);
        if (testId is not null)
            return await tests.SingleOrDefaultAsync(row => row.Id == testId, cancel) is { } found ? found : new ShutterTestNotFound();
        var marks = await MarksAsync(repairId, cancel);
        if (marks.Count == 0)
            return new NoMarkedSpeeds();
        var test = await NewAsync(repairId, phase, marks, cancel);
        (test.Instrument, test.ResolutionSeconds) = (instrument.Trim().Length > 0 ? instrument.Trim() : RecordedWith, null);
        db.ShutterTests.Add(test);
        return test;
    }

    /// <summary>Adds what was typed beside one mark, to the test given or to a new one.</summary>
    /// <returns>The test's id.</returns>
    public async Task<Result<Guid>> AddTypedAsync(Guid repairId, Phase phase, Guid? testId, SpeedTyped typed, CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var test = await FindOrBeginAsync(repairId, phase, testId, shop.DefaultInstrument, cancel);
        if (!test.IsDone)
            return test.Failure;
        var read = TypedReadings.Read([typed], test.Value.Id, clock.GetUtcNow());
        if (read.Refused.Count > 0)
            return new TypedTimeRefused(read.Refused[0].Sentence);
        if (read.Readings.Count == 0)
            return new TypedTimeRefused(new NoReadingsTyped().Message);
        var once = Guid.CreateVersion7();
        await AppendAsync(test.Value.Id, read.Readings, once, cancel);
        return await KeepAsync(repairId, test.Value.Id, once, cancel);
    }

    /// <summary>The timed marks of the camera's dial: as text, as shown, and the time behind them in seconds.</summary>
    public async Task<IReadOnlyList<(string Mark, string Shown, double Seconds)>> DialAsync(Guid repairId, CancellationToken cancel) =>
        [.. (await MarksAsync(repairId, cancel)).Where(mark => mark.LiteralSeconds is not null)
            .Select(mark => (mark.Text, ShutterFigures.Shown(mark), mark.LiteralSeconds!.Value))];

    internal async Task<IReadOnlyList<MarkedSpeed>> MarksAsync(Guid repairId, CancellationToken cancel)
    {
        var texts = await (
            from repair in db.Repairs
            join camera in db.Cameras on repair.CameraId equals camera.Id
            where repair.Id == repairId
            select camera.MarkedSpeeds).SingleAsync(cancel);
        return [.. texts.Select(text => MarkedSpeed.Parse(text).Mark).OfType<MarkedSpeed>()];
    }

    private Task<ShutterTest?> NewestAsync(Guid repairId, Phase phase, CancellationToken cancel) =>
        db.ShutterTests.AsNoTracking().Include(row => row.Readings)
            .Where(row => row.RepairId == repairId && row.Phase == phase && row.Readings.Any(reading => reading.StruckOutReason == null))
            .OrderByDescending(row => row.MeasuredAt).FirstOrDefaultAsync(cancel);

    private async Task<ShutterSession?> SessionAsync(ShutterTest? test, TimeZoneInfo zone, CancellationToken cancel)
    {
        if (test is null)
            return null;
        var by = await db.Users.Where(account => account.Id == test.MeasuredBy).Select(account => account.DisplayName).FirstOrDefaultAsync(cancel);
        return new ShutterSession(
            test.Id, WallClock.OnTheWall(test.MeasuredAt, zone), test.Instrument, test.RoomTemperatureCelsius, by ?? "",
            ShutterFigures.Words(test, CultureInfo.CurrentCulture), test.Note);
    }

    private static SpeedFigures? FiguresOf(ShutterTest? test, MarkedSpeed mark) =>
        test is null ? null : ShutterFigures.Of(test, mark, test.Readings.Where(reading => reading.MarkedSpeed == mark.Text));

    private static List<SpeedRow> Rows(ShutterTest test, IReadOnlyList<MarkedSpeed> marks, IReadOnlyList<Reading> readings, ShutterTest? before) =>
        [.. With(marks, readings).Select(mark =>
        {
            var own = readings.Where(reading => reading.MarkedSpeed == mark.Text).OrderBy(reading => reading.Position).ToList();
            return new SpeedRow(
                mark.Text, ShutterFigures.Shown(mark), mark.ReferenceSeconds(ShutterFigures.RuleOf(test)), mark.LiteralSeconds is not null,
                [.. own.Select(reading => new ReadingView(
                    reading.Id, reading.Typed, reading.Seconds, reading.StruckOutReason, reading.Kind, reading.RecordingId, reading.Exposure))],
                ShutterFigures.Of(test, mark, own), FiguresOf(before, mark));
        })];

    /// <summary>The dial's marks, and those that were measured before the dial was written anew.</summary>
    private static IEnumerable<MarkedSpeed> With(IReadOnlyList<MarkedSpeed> marks, IEnumerable<Reading> readings) =>
        marks.Concat(readings.Select(reading => MarkedSpeed.Parse(reading.MarkedSpeed).Mark).OfType<MarkedSpeed>()).DistinctBy(mark => mark.Text);
}
