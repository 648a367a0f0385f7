namespace RepairShop.Measurement.Signals.Finding;

/// <summary>What may be an exposure, in blocks: an opening and the closing after it, with the stretch that both and any bounces take.</summary>
/// <param name="Opening">The edge that opens.</param>
/// <param name="Closing">The edge that closes.</param>
/// <param name="From">The last block that is surely quiet before it, in blocks.</param>
/// <param name="To">The first block that is surely quiet after it and its bounces, in blocks.</param>
internal sealed record Candidate(Edge Opening, Edge Closing, int From, int To)
{
    /// <summary>Where the quiet part before it begins, in blocks.</summary>
    public int QuietFrom { get; init; }

    /// <summary>Where the quiet part after it ends, in blocks (excluded).</summary>
    public int QuietTo { get; init; }
}
