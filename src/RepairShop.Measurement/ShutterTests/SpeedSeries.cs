namespace RepairShop.Measurement.ShutterTests;

/// <summary>A row of marks as engraved on a kind of shutter.</summary>
public sealed record SpeedSeries
{
    private SpeedSeries(string key, string name, bool isOld, string dial)
    {
        (Key, Name, IsOld) = (key, name, isOld);
        Marks = MarkedSpeed.ParseDial(dial).Marks;
    }

    /// <summary>1 … 1/500 and B: between-lens shutters of the modern series (marks fixed by ISO 516 / JIS B 7091).</summary>
    public static SpeedSeries Modern500 { get; } = new("modern-500", "Modern, to 1/500", false, "1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500 B");

    /// <summary>1 … 1/1000 and B: focal-plane shutters of the modern series (marks fixed by ISO 516 / JIS B 7091).</summary>
    public static SpeedSeries Modern1000 { get; } = new("modern-1000", "Modern, to 1/1000", false, "1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500 1/1000 B");

    /// <summary>1 … 1/2000 and B: later vertical focal-plane shutters of the modern series; common practice.</summary>
    public static SpeedSeries Modern2000 { get; } = new("modern-2000", "Modern, to 1/2000", false, "1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500 1/1000 1/2000 B");

    /// <summary>1 … 1/500, T and B: between-lens shutters before the modern series. The exact list is from memory; the family is common practice.</summary>
    public static SpeedSeries Old500 { get; } = new("old-500", "Old, 1/25 1/50 1/100, to 1/500", true, "1 1/2 1/5 1/10 1/25 1/50 1/100 1/250 1/500 T B");

    /// <summary>1 … 1/400, T and B: another old row, in steps of 1/20, 1/50, 1/100, 1/200 (a large-format forum's list; not a standard).</summary>
    public static SpeedSeries Old400 { get; } = new("old-400", "Old, 1/20 1/50 1/100, to 1/400", true, "1 1/2 1/5 1/10 1/20 1/50 1/100 1/200 1/400 T B");

    /// <summary>1 … 1/1000, T and B: old focal-plane shutters with a slow train. From memory; type the dial where it differs.</summary>
    public static SpeedSeries OldFocalPlane { get; } = new("old-focal-plane", "Old focal-plane, to 1/1000", true, "1 1/2 1/5 1/10 1/20 1/30 1/40 1/60 1/100 1/200 1/500 1/1000 T B");

    /// <summary>Every row offered, in the order to offer them.</summary>
    public static IReadOnlyList<SpeedSeries> All { get; } = [Modern500, Modern1000, Modern2000, Old500, Old400, OldFocalPlane];

    /// <summary>Stable key for storage.</summary>
    public string Key { get; }

    /// <summary>What a person picks from a list.</summary>
    public string Name { get; }

    /// <summary>True for rows made before the binary one: their marks are always read literally.</summary>
    public bool IsOld { get; }

    /// <summary>The marks, slowest first, T and B at the end.</summary>
    public IReadOnlyList<MarkedSpeed> Marks { get; }

    /// <summary>
    /// The rule for a given row of marks: the shop's, except that an old row is literal always. A row is old when it has 1/5, 1/10, 1/20, 1/25,
    /// 1/50, 1/100 or 1/200, so that its 1/250 and 1/500 are literal too (no binary value lies behind them; a decision of ours, printed on the record).
    /// </summary>
    /// <param name="marks">All marks of the dial.</param>
    /// <param name="shopRule">What the shop has set.</param>
    public static ReferenceRule RuleFor(IEnumerable<MarkedSpeed> marks, ReferenceRule shopRule) =>
        IsOldRow(marks) ? ReferenceRule.LiteralMark : shopRule;

    /// <summary>Whether a row of marks is one from before the binary series.</summary>
    /// <param name="marks">All marks of the dial.</param>
    public static bool IsOldRow(IEnumerable<MarkedSpeed> marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        return marks.Any(m => m.Text is "1/5" or "1/10" or "1/20" or "1/25" or "1/50" or "1/100" or "1/200");
    }
}
