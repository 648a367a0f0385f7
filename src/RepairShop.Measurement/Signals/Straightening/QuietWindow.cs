using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// One candidate and the quiet parts around it, in groups of a millisecond and more: where the light does not change, an RC high-pass leaves
/// nothing but offset plus an exponential, whatever the shutter did before.
/// </summary>
internal sealed class QuietWindow
{
    private const double GroupSeconds = 0.001;
    private const double Growth = 0.12;

    /// <summary>Shorter plateaus tell nothing that the link from before to after does not.</summary>
    private const double LeastPlateauSeconds = 0.003;

    public QuietWindow(Blocks blocks, Candidate candidate)
    {
        (Blocks, Candidate) = (blocks, candidate);
        PlateauFrom = candidate.Opening.To + blocks.In(GroupSeconds);
        PlateauTo = candidate.Closing.From - blocks.In(GroupSeconds);
        HasPlateau = PlateauTo - PlateauFrom >= blocks.In(LeastPlateauSeconds);
        Values = new double[candidate.QuietTo - candidate.QuietFrom];
    }

    public Blocks Blocks { get; }

    public Candidate Candidate { get; }

    public bool HasPlateau { get; }

    public int PlateauFrom { get; }

    public int PlateauTo { get; }

    /// <summary>Block means with light upwards and hum taken out, from <see cref="Candidate.QuietFrom"/> on.</summary>
    public double[] Values { get; }

    /// <summary>The hum taken out, in the same blocks; null while none is known.</summary>
    public MainsWave? Hum { get; set; }

    /// <summary>Groups of blocks with their means, positions and weights, made by <see cref="Fill"/>.</summary>
    public List<Group> Before { get; } = [];

    /// <inheritdoc cref="Before"/>
    public List<Group> Open { get; } = [];

    /// <inheritdoc cref="Before"/>
    public List<Group> After { get; } = [];

    /// <summary>Sum of the values from the end of quiet to its next beginning: the light and its droop, which link before to after.</summary>
    public double Sum { get; private set; }

    /// <summary>Fills values and groups anew, after the hum has become known.</summary>
    public void Fill(int polarity)
    {
        var start = Candidate.QuietFrom;
        for (var i = 0; i < Values.Length; i++)
            Values[i] = polarity * (double)Blocks.Means[start + i];
        Hum?.Subtract(Values, start, Blocks);
        GroupUp(Before, start, Candidate.From);
        GroupUp(After, Candidate.To, Candidate.QuietTo);
        if (HasPlateau) GroupUp(Open, PlateauFrom, PlateauTo);
        Sum = 0;
        for (var block = Candidate.From; block < Candidate.To; block++) Sum += Values[block - start];
    }

    /// <summary>
    /// Groups grow with their distance from both ends: what happens far from an edge is slow. Their means are those of an exponential exactly
    /// (<see cref="DroopFit"/>), so that only what noise would hide anyway is given up.
    /// </summary>
    private void GroupUp(List<Group> groups, int from, int to)
    {
        groups.Clear();
        var least = Blocks.In(GroupSeconds);
        for (var block = from; block < to;)
        {
            var length = Math.Max(least, (int)(Growth * Math.Min(block - from, to - block)));
            var end = Math.Min(to, block + length);
            double sum = 0;
            for (var i = block; i < end; i++) sum += Values[i - Candidate.QuietFrom];
            groups.Add(new((block + end) / 2.0, sum / (end - block), end - block));
            block = end;
        }
    }
}

/// <summary>The mean of a few blocks.</summary>
/// <param name="Centre">Its middle, in blocks from the recording's beginning.</param>
/// <param name="Mean">Mean value.</param>
/// <param name="Weight">How many blocks.</param>
internal readonly record struct Group(double Centre, double Mean, double Weight);
