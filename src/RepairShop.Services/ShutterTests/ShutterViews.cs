using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Services.ShutterTests;

/// <summary>What a person typed on the test's form.</summary>
/// <param name="Version">Of the test when the form was opened; 0 for a new one.</param>
/// <param name="Once">Made when the form was opened, so that the same form sent twice is kept once.</param>
public sealed record ShutterTyped(
    string Instrument, double? ResolutionMilliseconds, double? RoomTemperature, string Note, IReadOnlyList<SpeedTyped> Speeds, uint Version, Guid Once);

/// <summary>The readings typed beside one mark, as many as there are.</summary>
public sealed record SpeedTyped(string Mark, string Text);

/// <summary>The page of one test, or of a new one.</summary>
/// <param name="TestId">Null before the first reading is saved.</param>
/// <param name="Head">What stands in the fields above the table.</param>
/// <param name="Marks">The camera's marks as typed; empty where they are not known yet.</param>
/// <param name="Rows">One a mark, in the dial's order.</param>
/// <param name="Tests">All tests of this repair and phase, newest first.</param>
/// <param name="Rules">The limits and the reference rule in force for this test, in words.</param>
public sealed record ShutterForm(
    Guid? TestId, Phase Phase, ShutterTyped Head, string Marks, IReadOnlyList<SpeedRow> Rows, IReadOnlyList<TestChoice> Tests, string Rules);

/// <param name="HasTime">False for B and T: there is nothing to hold a reading against.</param>
/// <param name="Figures">Null without a reading that counts.</param>
/// <param name="Before">The as-received figures of the same mark, on the after-service page.</param>
public sealed record SpeedRow(
    string Mark, string Shown, double? ReferenceSeconds, bool HasTime, IReadOnlyList<ReadingView> Readings, SpeedFigures? Figures, SpeedFigures? Before)
{
    /// <summary>What the times that count mean; null where they are all typed, or stand mixed.</summary>
    public TimeMeaning? Meaning => Readings.Where(reading => reading.StruckOutReason is null).Select(reading => reading.Kind).Distinct().ToList() switch
    {
        [ReadingKind.Effective] => TimeMeaning.Effective,
        [ReadingKind.HalfWidth] => TimeMeaning.HalfWidth,
        _ => null,
    };
}

/// <param name="RecordingId">The recording it was taken from; null when typed.</param>
/// <param name="Exposure">Which exposure of it.</param>
public sealed record ReadingView(
    Guid Id, string Typed, double Seconds, string? StruckOutReason, ReadingKind Kind = ReadingKind.Typed, Guid? RecordingId = null, int? Exposure = null);

/// <param name="MeasuredAt">On the workshop's wall.</param>
public sealed record TestChoice(Guid Id, DateTimeOffset MeasuredAt, string Instrument, int Readings);

/// <summary>Figures of what is typed, before it is saved.</summary>
public sealed record ShutterPreview(IReadOnlyList<SpeedRow> Rows, IReadOnlyList<ReadingsNotRead> Refused);

/// <summary>Both ends of the job, for the sheet, the chart and the service record.</summary>
/// <param name="Rows">Marks with a reading in either session, in the dial's order.</param>
public sealed record BeforeAndAfter(
    IReadOnlyList<ShutterRowFacts> Rows, ShutterSession? AsReceived, ShutterSession? AfterService);

/// <param name="MeasuredAt">On the workshop's wall.</param>
public sealed record ShutterSession(Guid TestId, DateTimeOffset MeasuredAt, string Instrument, double? RoomCelsius, string MeasuredBy, string Rules, string Note);
