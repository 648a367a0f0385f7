using RepairShop.Domain.Results;

namespace RepairShop.Domain.ShutterTests;

public sealed record ShutterTestNotFound() : NotFound("This shutter test is not there.");

public sealed record ReadingNotFound() : NotFound("This reading is not there.");

public sealed record NoMarkedSpeeds() : Conflict("This camera has no marked speeds yet: enter them first.");

public sealed record NoReadingsTyped() : Conflict("No reading was typed: write at least one beside its marked speed.");

public sealed record StrikeOutReasonMissing() : Invalid("Reason", "Say why the reading does not count: it stays on the page with your reason.");

public sealed record InstrumentMissing() : Invalid("Instrument", "Instrument is empty: write what the times were measured with.");

public sealed record ResolutionOutOfRange(double Milliseconds)
    : Invalid("ResolutionMilliseconds", $"A smallest step of {Milliseconds} ms can't be: write a number above 0, up to 1000 ms, or leave it empty.");

public sealed record TemperatureOutOfRange(double Celsius)
    : Invalid("RoomTemperature", $"{Celsius} °C can't be a room's temperature: write a number from −30 to 60.");

/// <param name="Field">Which input.</param>
/// <param name="Sentence">What is wrong with which part of it.</param>
public sealed record ReadingsNotRead(string Field, string Sentence);

/// <summary>Some inputs of the form could not be read; each has its own sentence, and nothing was saved.</summary>
public sealed record ReadingsRefused(IReadOnlyList<ReadingsNotRead> Fields)
    : Conflict("Some readings could not be read: see the sentences beside them. Nothing has been saved yet.");

/// <param name="Sentence">What is wrong with the typed time.</param>
public sealed record TypedTimeRefused(string Sentence) : Invalid("Text", Sentence);
