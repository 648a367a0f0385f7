using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>From a table's times to one rate.</summary>
internal static class EvenGrid
{
    public const double LeastRate = 1_000, MostRate = 100_000_000;

    /// <summary>Printed times are rounded: within this share of a step of their place they count as even.</summary>
    private const double Even = 0.51;

    /// <summary>A straight line over a gap longer than this many steps would be an invention.</summary>
    private const double LongestGap = 4;

    public static Result<Recording> Of(ReadOnlySpan<double> times, IReadOnlyList<List<float>> values, int headerLines)
    {
        var count = times.Length;
        var span = times[^1] - times[0];
        if (span <= 0)
            return new TimeStandsStill(headerLines + 2);
        var step = span / (count - 1);
        var rate = 1 / step;
        if (!(rate >= LeastRate && rate <= MostRate))
            return new RateOutOfRange("The time column", rate, LeastRate, MostRate);
        if (IsEven(times, step))
            return new Recording(rate, [.. values.Select(column => column.ToArray())], null);
        for (var i = 1; i < count; i++)
        {
            if (times[i] <= times[i - 1])
                return new TimeStandsStill(headerLines + i + 1);
        }

        var usual = Median(times);
        for (var i = 1; i < count; i++)
        {
            if (times[i] - times[i - 1] > LongestGap * usual)
                return new TimeHasGap(headerLines + i + 1, times[i] - times[i - 1] - usual, usual);
        }

        return Resampled(times, values, usual);
    }

    /// <summary>Whether each time lies where an even grid has it; the printed digits may be coarser than the step.</summary>
    private static bool IsEven(ReadOnlySpan<double> times, double step)
    {
        var printed = PrintedStep(times, step);
        for (var i = 0; i < times.Length; i++)
        {
            if (Math.Abs(times[i] - times[0] - i * step) > Math.Max(Even * step, printed))
                return false;
        }

        return true;
    }

    /// <summary>Where neighbouring times are printed alike, the digits are coarser than the step: the least difference there is, else 0.</summary>
    private static double PrintedStep(ReadOnlySpan<double> times, double step)
    {
        var (least, alike) = (double.PositiveInfinity, false);
        for (var i = 1; i < times.Length; i++)
        {
            var difference = times[i] - times[i - 1];
            alike |= difference == 0;
            if (difference > 0)
                least = Math.Min(least, difference);
        }

        // Coarser than twenty steps, the edges of an exposure would lie wherever the grid puts them.
        return alike && least <= 20 * step ? 1.01 * least : 0;
    }

    private static double Median(ReadOnlySpan<double> times)
    {
        var steps = new double[times.Length - 1];
        for (var i = 0; i < steps.Length; i++)
            steps[i] = times[i + 1] - times[i];
        Array.Sort(steps);
        return steps[steps.Length / 2];
    }

    /// <summary>Straight lines between the given points, on the usual step.</summary>
    private static Result<Recording> Resampled(ReadOnlySpan<double> times, IReadOnlyList<List<float>> values, double step)
    {
        var length = (times[^1] - times[0]) / step;
        if (length >= CsvTrace.MostRows || 1 / step > MostRate)
            return new RateOutOfRange("The time column", 1 / step, LeastRate, MostRate);
        var count = (int)length + 1;
        var even = values.Select(_ => new float[count]).ToArray();
        var at = 0;
        for (var i = 0; i < count; i++)
        {
            var time = times[0] + i * step;
            while (at < times.Length - 2 && times[at + 1] < time)
                at++;
            var share = (float)Math.Clamp((time - times[at]) / (times[at + 1] - times[at]), 0, 1);
            for (var column = 0; column < even.Length; column++)
                even[column][i] = values[column][at] + share * (values[column][at + 1] - values[column][at]);
        }

        return new Recording(1 / step, even, null);
    }
}
