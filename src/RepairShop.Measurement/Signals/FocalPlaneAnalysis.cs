namespace RepairShop.Measurement.Signals;

/// <summary>Puts the channels of a focal-plane shutter together.</summary>
internal static class FocalPlaneAnalysis
{
    /// <summary>No curtain takes longer than this over its frame (common practice: 10 to 30 ms).</summary>
    private const double MostTravelSeconds = 0.08;

    public static IReadOnlyList<FocalPlaneFigures> Of(IReadOnlyList<LightChannel> lights, Rig rig)
    {
        var seen = lights.SelectMany(light => light.Exposures.Select(exposure => new Seen(light.Role, rig.PositionMm(light.Role), exposure)))
            .OrderBy(one => one.Opening).ToList();
        var releases = new List<List<Seen>>();
        foreach (var one in seen)
        {
            if (releases.Count > 0 && one.Opening - releases[^1][0].Opening < MostTravelSeconds && releases[^1].All(s => s.Role != one.Role)) releases[^1].Add(one);
            else releases.Add([one]);
        }

        var working = lights.Where(light => light.Outcome == Outcome.Ok).Select(light => light.Role).ToList();
        return [.. releases.Where(release => release.Count > 1).Select(release => Figures(release, working, rig))];
    }

    private static FocalPlaneFigures Figures(List<Seen> release, List<ChannelRole> working, Rig rig)
    {
        var opening = Line(release, one => one.Opening);
        var closing = Line(release, one => one.Closing);
        var second = Run(release, closing, rig);
        var points = release.Select(one => new PointExposure(one.Role, one.PositionMm, one.Seconds, one.Seconds * second?.SpeedMmPerSecond))
            .Concat(working.Where(role => release.All(one => one.Role != role)).Select(role => new PointExposure(role, rig.PositionMm(role), 0, 0)))
            .OrderBy(point => point.PositionMm).ToList();
        var edge = rig.FrameWidthMm / 2;
        double Slit(double position) => closing.Start - opening.Start + position * (closing.Slope - opening.Slope);
        var isCapping = points.Any(point => point.Seconds <= 0) || Slit(-edge) <= 0 || Slit(edge) <= 0;
        var least = points.Min(point => point.Seconds);
        return new(
            release.Min(one => one.Opening), Run(release, opening, rig), second, points,
            least > 0 ? points.Max(point => point.Seconds) / least : null, isCapping,
            release.Max(one => one.Closing) - release.Min(one => one.Opening));
    }

    private static CurtainRun? Run(List<Seen> release, (double Start, double Slope) line, Rig rig)
    {
        if (!(line.Slope > 0)) return null;
        var distance = release.Max(one => one.PositionMm) - release.Min(one => one.PositionMm);
        return new(line.Slope * distance, distance, line.Slope * rig.FrameWidthMm);
    }

    /// <summary>Time over position: through two sensors, the least-squares line through three.</summary>
    private static (double Start, double Slope) Line(List<Seen> release, Func<Seen, double> time)
    {
        var (position, mean) = (release.Average(one => one.PositionMm), release.Average(time));
        var slope = release.Sum(one => (one.PositionMm - position) * (time(one) - mean))
            / release.Sum(one => (one.PositionMm - position) * (one.PositionMm - position));
        return (mean - slope * position, slope);
    }

    private sealed record Seen(ChannelRole Role, double PositionMm, ExposureFigures Exposure)
    {
        public double Opening => Exposure.Crossings.Opening50Seconds;

        public double Closing => Exposure.Crossings.Closing50Seconds;

        public double Seconds => Exposure.EffectiveSeconds ?? Exposure.Width50Seconds;
    }
}
