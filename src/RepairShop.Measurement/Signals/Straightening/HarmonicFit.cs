using System.Numerics;
using RepairShop.Measurement.Signals.Fitting;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// Least squares of a constant and the harmonics of one frequency on evenly spaced values in a few stretches. The normal matrix is made of
/// sums of cosines over each stretch, which are known in closed form; only the right side looks at the values.
/// </summary>
internal sealed class HarmonicFit
{
    private readonly IReadOnlyList<(double Start, double[] Values)> stretches;
    private readonly double squares;

    /// <summary>Harmonics of one frequency on stretches of values.</summary>
    /// <param name="stretches">Place of the first value, in units of the spacing, and the values.</param>
    public HarmonicFit(IReadOnlyList<(double Start, double[] Values)> stretches)
    {
        this.stretches = stretches;
        foreach (var (_, values) in stretches)
        {
            Count += values.Length;
            foreach (var value in values) squares += value * value;
        }
    }

    public int Count { get; }

    /// <summary>The best amplitudes at one frequency.</summary>
    /// <param name="Solution">Cosine and sine amplitudes in turns, the constant last.</param>
    /// <param name="Left">Sum of squares left.</param>
    /// <param name="Normal">The normal matrix.</param>
    public sealed record Result(double[] Solution, double Left, double[,] Normal);

    /// <summary>Solves at one frequency.</summary>
    /// <param name="radians">The ground wave's turn from one value to the next.</param>
    /// <param name="harmonics">How many waves, the ground wave counted.</param>
    public Result At(double radians, int harmonics)
    {
        var size = 2 * harmonics + 1;
        var right = new double[size];
        var (cosines, sines) = (new double[2 * harmonics + 1], new double[2 * harmonics + 1]);
        foreach (var (start, values) in stretches)
        {
            Project(values, start * radians, radians, harmonics, right);
            for (var m = 0; m <= 2 * harmonics; m++) Sums(m * radians, start, values.Length, ref cosines[m], ref sines[m]);
        }

        var normal = Normal(cosines, sines, harmonics);
        var solution = Dense.Solve(normal, right);
        double explained = 0;
        for (var i = 0; i < size; i++) explained += solution[i] * right[i];
        return new(solution, Math.Max(0, squares - explained), normal);
    }

    /// <summary>
    /// Right side: the values times each wave, as many values at once as the processor takes. The harmonics follow from the ground wave by
    /// cos((h+1)x) = 2cos(x)cos(hx) − cos((h−1)x).
    /// </summary>
    private static void Project(double[] values, double phase, double step, int harmonics, double[] right)
    {
        var width = Vector<double>.Count;
        Span<Vector<double>> sums = stackalloc Vector<double>[2 * harmonics + 1];
        sums.Clear();
        Span<double> sines = stackalloc double[width], cosines = stackalloc double[width];
        for (var lane = 0; lane < width; lane++) (sines[lane], cosines[lane]) = Math.SinCos(phase + lane * step);
        var (sin1, cos1) = (new Vector<double>(sines), new Vector<double>(cosines));
        var (turnSin, turnCos) = Math.SinCos(width * step);
        Span<double> last = stackalloc double[width];
        for (var index = 0; index < values.Length; index += width)
        {
            if (index + width <= values.Length) Add(new(values, index), cos1, sin1, sums);
            else
            {
                last.Clear();
                values.AsSpan(index).CopyTo(last);
                Add(new(last), cos1, sin1, sums);
            }

            (sin1, cos1) = (sin1 * turnCos + cos1 * turnSin, cos1 * turnCos - sin1 * turnSin);
        }

        for (var i = 0; i < right.Length; i++) right[i] += Vector.Sum(sums[i]);
    }

    private static void Add(Vector<double> value, Vector<double> cos1, Vector<double> sin1, Span<Vector<double>> sums)
    {
        var twice = cos1 + cos1;
        var (cosBefore, sinBefore, cos, sin) = (Vector<double>.One, Vector<double>.Zero, cos1, sin1);
        for (var i = 0; i + 1 < sums.Length; i += 2)
        {
            sums[i] += value * cos;
            sums[i + 1] += value * sin;
            (cosBefore, cos) = (cos, twice * cos - cosBefore);
            (sinBefore, sin) = (sin, twice * sin - sinBefore);
        }

        sums[^1] += value;
    }

    /// <summary>Σ cos and Σ sin of evenly spaced angles (geometric series).</summary>
    private static void Sums(double step, double start, int count, ref double cosines, ref double sines)
    {
        var half = Math.Sin(step / 2);
        var factor = Math.Abs(half) < 1e-12 ? count : Math.Sin(count * step / 2) / half;
        var (sin, cos) = Math.SinCos(step * (start + (count - 1) / 2.0));
        cosines += factor * cos;
        sines += factor * sin;
    }

    private static double[,] Normal(double[] cosines, double[] sines, int harmonics)
    {
        var last = 2 * harmonics;
        var normal = new double[last + 1, last + 1];
        for (var a = 1; a <= harmonics; a++)
        {
            var (c, s) = (2 * a - 2, 2 * a - 1);
            for (var b = a; b <= harmonics; b++)
            {
                var (cb, sb) = (2 * b - 2, 2 * b - 1);
                // Products of two waves are half their sum and difference frequencies.
                Set(normal, c, cb, (cosines[b - a] + cosines[a + b]) / 2);
                Set(normal, s, sb, (cosines[b - a] - cosines[a + b]) / 2);
                Set(normal, c, sb, (sines[a + b] + sines[b - a]) / 2);
                Set(normal, s, cb, (sines[a + b] - sines[b - a]) / 2);
            }

            Set(normal, c, last, cosines[a]);
            Set(normal, s, last, sines[a]);
        }

        normal[last, last] = cosines[0];
        for (var i = 0; i <= last; i++) normal[i, i] *= 1 + 1e-9;
        return normal;
    }

    private static void Set(double[,] matrix, int i, int j, double value) => matrix[i, j] = matrix[j, i] = value;
}
