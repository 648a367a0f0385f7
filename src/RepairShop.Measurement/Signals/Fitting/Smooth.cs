namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>Running means and the places where they pass a level.</summary>
internal static class Smooth
{
    /// <summary>Centred running mean over an odd number of samples; fewer at the ends.</summary>
    public static double[] Mean(double[] values, int width)
    {
        var half = width / 2;
        if (half == 0) return values;
        var sums = new double[values.Length + 1];
        for (var i = 0; i < values.Length; i++) sums[i + 1] = sums[i] + values[i];
        var smooth = new double[values.Length];
        for (var i = 0; i < values.Length; i++)
        {
            var (from, to) = (Math.Max(0, i - half), Math.Min(values.Length, i + half + 1));
            smooth[i] = (sums[to] - sums[from]) / (to - from);
        }

        return smooth;
    }

    public static double MeanOf(double[] values, int from, int to)
    {
        (from, to) = (Math.Clamp(from, 0, values.Length - 1), Math.Clamp(to, 1, values.Length));
        if (to <= from) return values[from];
        double sum = 0;
        for (var i = from; i < to; i++) sum += values[i];
        return sum / (to - from);
    }

    /// <summary>Walks from a place in a direction until the value is below a level; the place between samples where it passes.</summary>
    public static double FallsBelow(double[] values, int from, int direction, double level) => Passes(values, from, direction, v => v < level, level);

    /// <summary>The same until the value is above a level.</summary>
    public static double RisesAbove(double[] values, int from, int direction, double level) => Passes(values, from, direction, v => v > level, level);

    private static double Passes(double[] values, int from, int direction, Func<double, bool> passed, double level)
    {
        var i = Math.Clamp(from, 0, values.Length - 1);
        for (; i >= 0 && i < values.Length; i += direction)
        {
            if (!passed(values[i])) continue;
            var before = i - direction;
            if (i == from || before < 0 || before >= values.Length || values[i] == values[before]) return i;
            return before + direction * (level - values[before]) / (values[i] - values[before]);
        }

        return Math.Clamp(i, 0, values.Length - 1);
    }
}
