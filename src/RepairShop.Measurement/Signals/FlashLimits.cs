namespace RepairShop.Measurement.Signals;

/// <summary>What the contacts are judged by. The workshop's own limits, common practice, not a standard's.</summary>
public static class FlashLimits
{
    /// <summary>An X contact may lead the fully open blades by no more than this, in seconds (a tenth of a millisecond: common practice).</summary>
    public const double XLeadSeconds = 0.0001;

    /// <summary>The shortest lead of an M contact, in seconds (15 ms: common practice; GOST 19821-83, 6.4.2.3 asks that it be measured).</summary>
    public const double MLeadLeastSeconds = 0.015;

    /// <summary>The longest lead of an M contact, in seconds (20 ms: common practice; a class M bulb peaks at about 20 ms).</summary>
    public const double MLeadMostSeconds = 0.020;
}
