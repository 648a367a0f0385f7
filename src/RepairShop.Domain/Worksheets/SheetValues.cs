using System.Globalization;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;

namespace RepairShop.Domain.Worksheets;

/// <summary>Looks through what was typed on a worksheet, field by field, and keeps the first reason why it can't be worked out.</summary>
internal sealed class SheetValues
{
    public Failure? Refusal { get; private set; }

    public void Refuse(Failure why) => Refusal ??= why;

    /// <summary>A number that must be there and lie in a range; NaN stands for "refused", and nothing is computed from it.</summary>
    public double Needed(double? value, string name, string words, double low, double high, string range)
    {
        if (value is { } number && number >= low && number <= high)
            return number;
        Refuse(value is null ? new SheetValueMissing(name, words) : new SheetValueOutOfRange(name, words, range));
        return double.NaN;
    }

    /// <summary>A number that may be missing.</summary>
    public double? Optional(double? value, string name, string words, double low, double high, string range) =>
        value is null ? null : Needed(value, name, words, low, high, range);

    public double Lens(double? focalLength) => Needed(focalLength, "FocalLength", "Focal length", 1, 5000, "1 to 5000 mm");

    public double FNumber(double? fNumber) => Needed(fNumber, "FNumber", "Widest aperture", 0.5, 128, "an f-number between 0.5 and 128");

    public double Circle(double? circle) => Needed(circle, "Circle", "Circle of confusion", 0.001, 1, "0.001 to 1 mm");
}

/// <summary>Numbers as worksheets write them.</summary>
internal static class SheetText
{
    public static string Number(double value, string format = "0.###") =>
        value.ToString(format, CultureInfo.CurrentCulture).Replace('-', '−');

    /// <summary>Stops with their sign: +0.33, −0.50, 0.00.</summary>
    public static string Stops(double stops) => stops.ToString("+0.00;−0.00;0.00", CultureInfo.CurrentCulture);

    public static string Verdict(Verdict verdict) => verdict switch
    {
        Measurement.Checks.Verdict.Within => "within",
        Measurement.Checks.Verdict.WithinNotProven => "within, not proven",
        Measurement.Checks.Verdict.OutsideNotProven => "outside, not proven",
        Measurement.Checks.Verdict.Outside => "outside",
        _ => "not judged",
    };
}
