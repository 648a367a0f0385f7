namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>Offset, droop and hum of a channel, found in turns: each is clearer once the others are out.</summary>
internal static class Straighten
{
    private const int Rounds = 3;

    public static DroopFit Fit(IReadOnlyList<QuietWindow> windows, int polarity, InputCoupling coupling)
    {
        var droop = new DroopFit(windows);
        var hum = new HumFit(windows, polarity);
        for (var round = 0; ; round++)
        {
            foreach (var window in windows) window.Fill(polarity);
            droop.Run(coupling);
            if (round == Rounds || !hum.Run(droop)) return droop;
        }
    }
}
