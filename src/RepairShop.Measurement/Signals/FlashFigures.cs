using RepairShop.Measurement.Checks;

namespace RepairShop.Measurement.Signals;

/// <summary>The flash contact at one release.</summary>
/// <param name="AtSeconds">When the contact closed, in seconds from the recording's beginning.</param>
/// <param name="ContactToFullyOpenSeconds">
/// From contact to fully open (end of opening, 90 % crossing), in seconds: plus when the contact leads, as M must; minus when the shutter was open first.
/// </param>
/// <param name="ContactToClosingSeconds">From contact to the beginning of closing (90 % downwards), in seconds; minus when it came too late.</param>
/// <param name="HoldSeconds">How long the contact stays closed, in seconds, above 0; null where the recording ends first.</param>
/// <param name="Bounces">How often the contact opened and closed again within 5 ms of closing first, 0 or more.</param>
/// <param name="Kind">Which contact it was judged as.</param>
/// <param name="Verdict">Within or outside <see cref="FlashLimits"/>; <see cref="Verdict.NotJudged"/> where the rig names no contact.</param>
public sealed record FlashFigures(
    double AtSeconds, double ContactToFullyOpenSeconds, double ContactToClosingSeconds, double? HoldSeconds, int Bounces,
    FlashContactKind Kind, Verdict Verdict);
