namespace RepairShop.Measurement.Tools;

/// <summary>The unit a person measures and reads lengths in; everything is kept in millimetres.</summary>
public enum LengthUnit
{
    /// <summary>Millimetres.</summary>
    Millimetre,

    /// <summary>Inches of 25.4 mm.</summary>
    Inch,
}

/// <summary>Millimetres and inches.</summary>
public static class Length
{
    /// <summary>Millimetres in an inch, exactly (international yard and pound agreement, 1959).</summary>
    public const double MillimetresPerInch = 25.4;

    /// <summary>A length as typed, in millimetres.</summary>
    /// <param name="value">Either sign, in <paramref name="unit"/>.</param>
    /// <param name="unit">The unit it was typed in.</param>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static double ToMillimetres(double value, LengthUnit unit) =>
        unit == LengthUnit.Inch ? Guard.Finite(value) * MillimetresPerInch : Guard.Finite(value);

    /// <summary>A length for reading.</summary>
    /// <param name="millimetres">Either sign, mm.</param>
    /// <param name="unit">The unit to read it in.</param>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static double FromMillimetres(double millimetres, LengthUnit unit) =>
        unit == LengthUnit.Inch ? Guard.Finite(millimetres) / MillimetresPerInch : Guard.Finite(millimetres);
}
