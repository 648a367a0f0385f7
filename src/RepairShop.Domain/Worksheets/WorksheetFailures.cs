using RepairShop.Domain.Results;

namespace RepairShop.Domain.Worksheets;

/// <param name="Name">The input's name.</param>
/// <param name="Words">What belongs there, such as "Film speed".</param>
public sealed record SheetValueMissing(string Name, string Words) : Invalid(Name, $"{Words} is empty: fill it in.");

/// <param name="Name">The input's name.</param>
/// <param name="Words">What belongs there.</param>
/// <param name="Range">What it may be, in words.</param>
public sealed record SheetValueOutOfRange(string Name, string Words, string Range) : Invalid(Name, $"{Words} can't be that: write {Range}.");

public sealed record ClockPlaceNotRead(string Name, string Text)
    : Invalid(Name, $"“{Text}” is no place on a clock's face: write it like 2:30, between 12:00 and 11:59.");

public sealed record SpringPlacesOutOfOrder() : Invalid("Tired", "As new, serviceable and tired must follow one another clockwise: check the three places.");

public sealed record SpeedNotRead(string Name, string Text) : Invalid(Name, $"“{Text}” is no marked speed: write it like 1/125, ½ or 1 s.");

public sealed record ApertureNotRead(string Name, string Text) : Invalid(Name, $"“{Text}” is no f-number: write it like 5.6.");

public sealed record NoPairHolds(string Value)
    : Invalid("Value", $"At EV {Value} no speed meets an aperture of this ring: check the value, the speeds and the apertures.");

public sealed record NothingRead() : Conflict("Nothing was read yet: fill in at least one line.");

public sealed record ReadingHalfGiven(string Name, string Words) : Invalid(Name, $"{Words}: give both, or leave the line empty.");

public sealed record MeterReadingNotRead(string Name, string Text)
    : Invalid(Name, $"“{Text}” is no reading: write an EV such as 12.3, or aperture and speed such as 8 1/125.");

public sealed record LimitsBeyondRange(string Name) : Invalid(Name, "The limit must lie between 0.01 and 5 stops.");
