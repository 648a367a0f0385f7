using RepairShop.Measurement.Checks;

namespace RepairShop.Measurement.Gauges;

/// <summary>
/// A body's register (flange focal distance) against what it should be, and the shims that put it right. Millimetres. The limit is half the depth of
/// focus, ±Nc, at the widest aperture: beyond it a far point is drawn larger than the circle of confusion.
/// </summary>
public sealed record Register
{
    /// <summary>One measured register.</summary>
    /// <param name="measured">Measured from the mount's face to the film rails or gate, mm, greater than 0.</param>
    /// <param name="nominal">What it should be, mm, greater than 0.</param>
    /// <param name="focalLength">Of the lens judged with, mm, greater than 0.</param>
    /// <param name="fNumber">Its widest aperture, greater than 0.</param>
    /// <param name="circle">Circle of confusion, mm, greater than 0.</param>
    /// <param name="shims">Thickness of the shims now between lens and body, mm, 0 or more; null when nobody has measured them.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, NaN or infinite.</exception>
    public Register(double measured, double nominal, double focalLength, double fNumber, double circle = Focus.CommonCircle, double? shims = null)
    {
        (Error, FocalLength) = (Guard.Positive(measured) - Guard.Positive(nominal), Guard.Positive(focalLength));
        HalfDepth = Focus.Depth(fNumber, circle) / 2;
        BlurAtInfinity = Math.Abs(Error) / fNumber;
        ShimsNow = shims is { } now ? Guard.NotNegative(now, nameof(shims)) : null;
        Gauge = new Gauge(Math.Round(Error, 6), "mm", -HalfDepth, HalfDepth);
    }

    /// <summary>Measured less nominal, mm: plus is a body too long, whose far focus falls short of infinity.</summary>
    public double Error { get; }

    /// <summary>Focal length of the lens judged with, mm.</summary>
    public double FocalLength { get; }

    /// <summary>Half the depth of focus, Nc, mm: the limit either way.</summary>
    public double HalfDepth { get; }

    /// <summary>What to add to the shims under the lens mount, mm: minus means take out.</summary>
    public double ShimChange => -Error;

    /// <summary>Shims now, mm; null when not measured.</summary>
    public double? ShimsNow { get; }

    /// <summary>Shims after the change, mm, below 0 when there is not enough to take out; null when what is there now was not measured.</summary>
    public double? ShimsAfter => ShimsNow + ShimChange;

    /// <summary>Whether the change asks for less than no shim at all: the error then lies elsewhere.</summary>
    public bool IsBeyondShims => ShimsAfter < -1e-9;

    /// <summary>The plane really in focus with the lens at its infinity stop, u = f + f²/d, mm; null when it is infinity or past it (body right or short).</summary>
    public double? FocusesAtInfinityStop => Focus.PlaneOf(FocalLength, Error);

    /// <summary>Diameter of the spot a far point makes at the widest aperture, |d|/N, mm.</summary>
    public double BlurAtInfinity { get; }

    /// <summary>The error with the limits ±Nc and its verdict.</summary>
    public Gauge Gauge { get; }

    /// <summary>Where focus falls when the scale is set to a distance, mm from the front principal plane; null at infinity and past it.</summary>
    /// <param name="objectDistance">The distance set, mm from the front principal plane, greater than the focal length.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not beyond the focal length, NaN or infinite.</exception>
    public double? FocusesAt(double objectDistance) => Focus.PlaneOf(FocalLength, Focus.Extension(FocalLength, objectDistance) + Error);
}
