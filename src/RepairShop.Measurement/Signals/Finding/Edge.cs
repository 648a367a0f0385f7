namespace RepairShop.Measurement.Signals.Finding;

/// <summary>A place where the signal's level changes within a few milliseconds.</summary>
/// <param name="Block">Where it changes most, in blocks.</param>
/// <param name="From">First block of the change, in blocks.</param>
/// <param name="To">Last block of the change, in blocks.</param>
/// <param name="Height">Level after minus level before, with its sign.</param>
internal readonly record struct Edge(int Block, int From, int To, double Height);
