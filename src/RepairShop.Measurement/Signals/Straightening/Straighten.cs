namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>Offset, droop and hum of a channel, found in turns: each is clearer once the others are out.</summary>
internal static class Straighten
{
    private const int Rounds = 3;

    public static DroopFit Fit(IReadOnlyList<QuietWindow> windows, int polarity, InputCoupling coupling)
    {
        var droop = new DroopFit(windows);
        for (var round = 0; ; round++)
        {
            foreach (var window in windows) window.Fill(polarity);
            droop.Run(coupling);
            if (round == Rounds) return droop;
            var any = false;
            for (var i = 0; i < windows.Count; i++)
            {
                windows[i].Hum = HumFit.Find(windows[i], droop, i);
                any |= windows[i].Hum is not null;
            }

            if (!any) return droop;
        }
    }
}
