namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// The signal around one exposure at full rate, with light upwards and offset, hum and the input's droop taken out: proportional to light.
/// </summary>
/// <param name="First">Place of the first value, in samples from the recording's beginning.</param>
/// <param name="Values">Light in the recording's unit, 0 where the shutter is closed.</param>
/// <param name="Noise">Standard deviation of the noise of a sample, in the same unit; 0 until it is known (<see cref="Placement"/>).</param>
internal sealed record StraightSignal(int First, double[] Values, double Noise)
{
    private const int MostDifferences = 4096;
    private const double KeptShare = 0.8;

    /// <summary>What is less is the rounding of single precision.</summary>
    private const double StepFloor = 1e-5;

    /// <summary>
    /// Undoes the RC high-pass: x′ = y′ + y/τ, stepped exactly for light that changes linearly between samples:
    /// x₊ − x = (y₊ − a·y)/g with a = e^(−h/τ), g = (τ/h)(1 − a).
    /// </summary>
    /// <param name="samples">The channel.</param>
    /// <param name="polarity">+1 where light drives the signal up, −1 where down.</param>
    /// <param name="first">First sample, in a quiet part.</param>
    /// <param name="end">One past the last sample.</param>
    /// <param name="sampleRateHz">Samples a second.</param>
    /// <param name="droop">The channel's offset and time constant.</param>
    /// <param name="window">The hum of this stretch.</param>
    /// <param name="tail">What is left at the first sample of the droop of earlier exposures.</param>
    public static StraightSignal Of(
        ReadOnlySpan<float> samples, int polarity, int first, int end, double sampleRateHz, DroopFit droop, QuietWindow window, double tail)
    {
        var values = new double[end - first];
        for (var i = 0; i < values.Length; i++) values[i] = polarity * (double)samples[first + i] - droop.Offset;
        window.Hum?.Subtract(values, first, sampleRateHz);
        if (droop.DecayPerSecond == 0)
        {
            for (var i = 0; i < values.Length; i++) values[i] -= tail;
            return new(first, values, 0);
        }

        var perSample = droop.DecayPerSecond / sampleRateHz;
        var a = Math.Exp(-perSample);
        var g = (1 - a) / perSample;
        var before = values[0];
        var light = before - tail;
        values[0] = light;
        for (var i = 1; i < values.Length; i++)
        {
            var now = values[i];
            light += (now - a * before) / g;
            before = now;
            values[i] = light;
        }

        return new(first, values, 0);
    }

    /// <summary>
    /// From second differences, which neither level nor slope touch; the greatest fifth is left out, for edges. Their smallest change is the
    /// step of a coarsely rounded signal, whose own noise is step/√12 (JCGM 100:2008, F.2.2.1).
    /// </summary>
    public static double NoiseOf(double[] values)
    {
        if (values.Length < 8) return 0;
        // A few thousand tell it to a percent.
        var stride = Math.Max(1, (values.Length - 2) / MostDifferences);
        var differences = new double[(values.Length - 3) / stride + 1];
        for (var i = 0; i < differences.Length; i++)
            differences[i] = Math.Abs(values[i * stride] - 2 * values[i * stride + 1] + values[i * stride + 2]);
        Array.Sort(differences);
        var kept = Math.Max(1, (int)(KeptShare * differences.Length));
        double squares = 0, step = 0;
        for (var i = 0; i < differences.Length; i++)
        {
            if (i < kept) squares += differences[i] * differences[i];
            if (step == 0 && differences[i] > StepFloor * differences[^1]) step = differences[i];
        }

        // Var of second differences is 6σ²; of a normal distribution cut off at its 80 % it is 0.4377 of the whole.
        return Math.Max(Math.Sqrt(squares / kept / 0.4377 / 6), step / Math.Sqrt(12));
    }
}
