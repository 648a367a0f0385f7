namespace RepairShop.Measurement.Signals;

/// <summary>One curtain's run past the sensors.</summary>
/// <param name="TravelSeconds">Between the outermost sensors that saw it, in seconds, above 0 (an inferred line where there are three).</param>
/// <param name="DistanceMm">Between those sensors, in millimetres, above 0.</param>
/// <param name="WholeFrameSeconds">Over the whole width of the frame at that speed, in seconds, above 0.</param>
public sealed record CurtainRun(double TravelSeconds, double DistanceMm, double WholeFrameSeconds)
{
    /// <summary>Mean speed between the sensors, in millimetres a second, above 0.</summary>
    public double SpeedMmPerSecond => DistanceMm / TravelSeconds;
}

/// <summary>The exposure of one point of the frame.</summary>
/// <param name="Role">Which sensor.</param>
/// <param name="PositionMm">Where it sits, in millimetres from the frame's centre, plus towards the edge uncovered last.</param>
/// <param name="Seconds">Its exposure: effective time where known, otherwise the 50 % width, in seconds; 0 where the frame is capped there.</param>
/// <param name="SlitWidthMm">Width of the slit passing it, exposure × second curtain's speed, in millimetres, 0 or more; null without that speed.</param>
public sealed record PointExposure(ChannelRole Role, double PositionMm, double Seconds, double? SlitWidthMm);

/// <summary>A focal-plane shutter's release seen by two or three sensors.</summary>
/// <param name="AtSeconds">When the first sensor was uncovered (50 %), in seconds from the recording's beginning.</param>
/// <param name="FirstCurtain">The opening curtain's run; null where fewer than two sensors saw it move.</param>
/// <param name="SecondCurtain">The closing curtain's run; null likewise.</param>
/// <param name="Points">The exposure of each point, first edge first.</param>
/// <param name="NonUniformity">Largest over smallest exposure, 1 or more (GOST 19821-83, 6.4.2.2); null where a point is capped.</param>
/// <param name="IsCapping">Whether the slit closes before it has crossed the frame: no light at a sensor, or at an edge of the frame by extension.</param>
/// <param name="WholePictureSeconds">From the first sensor uncovered to the last one covered, in seconds.</param>
public sealed record FocalPlaneFigures(
    double AtSeconds, CurtainRun? FirstCurtain, CurtainRun? SecondCurtain, IReadOnlyList<PointExposure> Points,
    double? NonUniformity, bool IsCapping, double WholePictureSeconds)
{
    /// <summary>The same in stops, log2, 0 or more; null where a point is capped.</summary>
    public double? NonUniformityStops => NonUniformity is { } ratio ? Math.Log2(ratio) : null;
}
