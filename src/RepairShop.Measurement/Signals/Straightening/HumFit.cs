using MathNet.Numerics.LinearAlgebra;
using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// Finds mains hum in what the droop's model leaves of the quiet parts: least squares on 50 or 60 Hz and its harmonics, with the frequency
/// itself among the unknowns (Gauss–Newton), because mains are never quite on it.
/// </summary>
internal static class HumFit
{
    private const int MostHarmonics = 8;

    /// <summary>Less quiet than this many periods tells hum from nothing.</summary>
    private const double LeastPeriods = 1.5;

    /// <summary>An amplitude must be this many times its own uncertainty.</summary>
    private const double Significant = 4.5;

    public static MainsWave? Find(QuietWindow window, DroopFit droop, int index)
    {
        var places = new List<(double Sample, double Value)>();
        var blocks = window.Blocks;
        void Collect(int segment, int from, int to)
        {
            for (var block = from; block < to; block++)
                places.Add((blocks.CentreSample(block), window.Values[block - window.Candidate.QuietFrom] - droop.Model(index, segment, block + 0.5)));
        }

        var before = window.Hum;
        Collect(0, window.Candidate.QuietFrom, window.Candidate.From);
        Collect(2, window.Candidate.To, window.Candidate.QuietTo);
        // Values have the last round's hum taken out already; put it back, so that each round sees all of it.
        var restored = Restore(places, before, blocks);
        var found50 = Fit(restored, 50, blocks);
        var found60 = Fit(restored, 60, blocks);
        return (found50, found60) switch
        {
            (null, null) => null,
            ({ } a, null) => a.Wave,
            (null, { } b) => b.Wave,
            ({ } a, { } b) => a.Left <= b.Left ? a.Wave : b.Wave,
        };
    }

    private static List<(double Sample, double Value)> Restore(List<(double Sample, double Value)> places, MainsWave? wave, Blocks blocks)
    {
        if (wave is null) return places;
        Span<double> one = [0];
        for (var i = 0; i < places.Count; i++)
        {
            one[0] = 0;
            wave.Subtract(one, (int)Math.Round((places[i].Sample - (blocks.Length - 1) / 2.0) / blocks.Length), blocks);
            places[i] = (places[i].Sample, places[i].Value - one[0]);
        }

        return places;
    }

    private static (MainsWave Wave, double Left)? Fit(List<(double Sample, double Value)> places, double nominalHz, Blocks blocks)
    {
        var rate = blocks.SampleRateHz;
        if (places.Count * blocks.Length / rate * nominalHz < LeastPeriods) return null;
        var harmonics = (int)Math.Min(MostHarmonics, 0.4 * blocks.RateHz / nominalHz);
        var origin = (places[0].Sample + places[^1].Sample) / 2;
        var frequency = nominalHz;
        var all = places.Sum(p => p.Value * p.Value);
        Vector<double> solution = null!;
        Matrix<double> inverse = null!;
        double left = all;
        for (var round = 0; round < 4; round++)
        {
            var size = 2 * harmonics + 2;
            var normal = Matrix<double>.Build.Dense(size, size);
            var right = Vector<double>.Build.Dense(size);
            var row = new double[size];
            foreach (var (sample, value) in places)
            {
                var time = (sample - origin) / rate;
                Row(row, time, frequency, harmonics, solution, blocks);
                for (var i = 0; i < size; i++)
                {
                    right[i] += row[i] * value;
                    for (var j = i; j < size; j++) normal[i, j] += row[i] * row[j];
                }
            }

            for (var i = 0; i < size; i++)
            {
                normal[i, i] = normal[i, i] * (1 + 1e-9) + 1e-300;
                for (var j = 0; j < i; j++) normal[i, j] = normal[j, i];
            }

            // Without a first guess there is no slope with frequency yet.
            if (round == 0) normal[size - 1, size - 1] = 1;
            // The mains keep within a few tenths of a hertz: holds the frequency where the hum is too weak or too short to tell.
            else normal[size - 1, size - 1] += left / Math.Max(1, places.Count) / 0.04;
            inverse = normal.Inverse();
            solution = inverse * right;
            left = Math.Max(0, all - solution.DotProduct(right));
            if (round > 0) frequency = Math.Clamp(frequency + solution[size - 1], nominalHz - 0.8, nominalHz + 0.8);
        }

        return Significantly(solution, inverse, left, places.Count, harmonics, frequency, origin);
    }

    private static void Row(double[] row, double time, double frequency, int harmonics, Vector<double>? guess, Blocks blocks)
    {
        double slope = 0;
        var (sin1, cos1) = Math.SinCos(2 * Math.PI * frequency * time);
        var (sin, cos) = (sin1, cos1);
        for (var h = 0; h < harmonics; h++)
        {
            var gain = MainsWave.BlockFactor((h + 1) * frequency, blocks);
            row[2 * h] = gain * cos;
            row[2 * h + 1] = gain * sin;
            if (guess is not null) slope += 2 * Math.PI * (h + 1) * time * gain * (guess[2 * h + 1] * cos - guess[2 * h] * sin);
            (cos, sin) = (cos * cos1 - sin * sin1, sin * cos1 + cos * sin1);
        }

        row[^2] = 1;
        row[^1] = slope;
    }

    private static (MainsWave, double)? Significantly(
        Vector<double> solution, Matrix<double> inverse, double left, int count, int harmonics, double frequency, double origin)
    {
        var variance = left / Math.Max(1, count - solution.Count);
        var (cosine, sine) = (new double[harmonics], new double[harmonics]);
        var any = false;
        for (var h = 0; h < harmonics; h++)
        {
            var (c, s) = (solution[2 * h], solution[2 * h + 1]);
            var uncertain = variance * (inverse[2 * h, 2 * h] + inverse[2 * h + 1, 2 * h + 1]);
            if (c * c + s * s <= Significant * Significant * uncertain / 2) continue;
            (cosine[h], sine[h], any) = (c, s, true);
        }

        return any ? (new(frequency, origin, cosine, sine), left) : null;
    }
}
