
namespace RepairShop.Documents.Text;

/// <summary>
/// Which way each character of a paragraph runs: the Unicode bidirectional algorithm (UAX #9), rules P2–P3, W1–W7, N0–N2,
/// I1–I2 and L2. Explicit embedding codes are ignored; what is foreign to a line is laid out as a span of its own instead.
/// </summary>
internal static class Bidi
{
    /// <summary>The embedding level of every UTF-16 unit; even runs left to right, odd right to left.</summary>
    public static byte[] Levels(string text)
    {
        var classes = new BidiClass[text.Length];
        var i = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            var bidiClass = BidiClasses.Of(rune.Value);
            for (var unit = 0; unit < rune.Utf16SequenceLength; unit++)
                classes[i++] = unit == 0 ? bidiClass : BidiClass.BN;
        }
        var baseLevel = (byte)(FirstStrong(classes) is BidiClass.R or BidiClass.AL ? 1 : 0);
        var levels = new byte[text.Length];
        Array.Fill(levels, baseLevel);
        if (baseLevel == 0 && !Array.Exists(classes, c => c is BidiClass.R or BidiClass.AL or BidiClass.AN))
            return levels;

        // X9 and W1: characters that are not there are left out, so that rules see true neighbours.
        var at = Enumerable.Range(0, text.Length).Where(n => classes[n] != BidiClass.BN).ToArray();
        var types = Array.ConvertAll(at, n => classes[n]);
        var direction = baseLevel == 0 ? BidiClass.L : BidiClass.R;
        var marks = Array.ConvertAll(types, t => t == BidiClass.NSM);
        ResolveWeak(types, direction);
        BidiBrackets.Resolve(text, at, types, marks, direction);
        ResolveNeutral(types, direction);
        for (var n = 0; n < at.Length; n++)
            levels[at[n]] = LevelOf(types[n], baseLevel);
        for (var n = 1; n < text.Length; n++)
            if (classes[n] == BidiClass.BN)
                levels[n] = levels[n - 1];
        return levels;
    }

    /// <summary>P2: whether a paragraph begins at the right, because the first character with a direction runs from there.</summary>
    public static bool StartsAtRight(string text)
    {
        foreach (var rune in text.EnumerateRunes())
            if (BidiClasses.Of(rune.Value) is var strong and (BidiClass.L or BidiClass.R or BidiClass.AL))
                return strong != BidiClass.L;
        return false;
    }

    /// <summary>L2: from the highest level down to the lowest odd one, turn every run at that level or above.</summary>
    public static void Reorder<T>(List<T> runs, Func<T, int> levelOf)
    {
        if (runs.Count == 0)
            return;
        for (var level = runs.Max(levelOf); level >= 1; level--)
            for (var i = 0; i < runs.Count; i++)
            {
                var start = i;
                while (i < runs.Count && levelOf(runs[i]) >= level)
                    i++;
                if (i - start > 1)
                    runs.Reverse(start, i - start);
            }
    }

    private static BidiClass FirstStrong(BidiClass[] classes) =>
        Array.Find(classes, c => c is BidiClass.L or BidiClass.R or BidiClass.AL);

    private static void ResolveWeak(BidiClass[] types, BidiClass start)
    {
        var before = start;
        for (var i = 0; i < types.Length; i++) // W1
        {
            if (types[i] == BidiClass.NSM)
                types[i] = before;
            before = types[i];
        }
        var strong = start;
        for (var i = 0; i < types.Length; i++) // W2
        {
            if (types[i] is BidiClass.L or BidiClass.R or BidiClass.AL)
                strong = types[i];
            else if (types[i] == BidiClass.EN && strong == BidiClass.AL)
                types[i] = BidiClass.AN;
        }
        for (var i = 0; i < types.Length; i++) // W3
            if (types[i] == BidiClass.AL)
                types[i] = BidiClass.R;
        for (var i = 1; i + 1 < types.Length; i++) // W4
        {
            var (left, right) = (types[i - 1], types[i + 1]);
            if (left == right && (left == BidiClass.EN && types[i] is BidiClass.ES or BidiClass.CS || left == BidiClass.AN && types[i] == BidiClass.CS))
                types[i] = left;
        }
        for (var i = 0; i < types.Length; i++) // W5
        {
            if (types[i] != BidiClass.ET)
                continue;
            var end = i;
            while (end < types.Length && types[end] == BidiClass.ET)
                end++;
            if (i > 0 && types[i - 1] == BidiClass.EN || end < types.Length && types[end] == BidiClass.EN)
                Array.Fill(types, BidiClass.EN, i, end - i);
            i = end - 1;
        }
        for (var i = 0; i < types.Length; i++) // W6
            if (types[i] is BidiClass.ES or BidiClass.ET or BidiClass.CS)
                types[i] = BidiClass.ON;
        strong = start;
        for (var i = 0; i < types.Length; i++) // W7
        {
            if (types[i] is BidiClass.L or BidiClass.R)
                strong = types[i];
            else if (types[i] == BidiClass.EN && strong == BidiClass.L)
                types[i] = BidiClass.L;
        }
    }

    private static void ResolveNeutral(BidiClass[] types, BidiClass direction)
    {
        for (var i = 0; i < types.Length; i++) // N1, N2
        {
            if (types[i] is not (BidiClass.ON or BidiClass.WS))
                continue;
            var end = i;
            while (end < types.Length && types[end] is BidiClass.ON or BidiClass.WS)
                end++;
            var left = i == 0 ? direction : Strong(types[i - 1]);
            var right = end == types.Length ? direction : Strong(types[end]);
            Array.Fill(types, left == right ? left : direction, i, end - i);
            i = end - 1;
        }
    }

    /// <summary>Numbers count as right-to-left around neutrals and brackets.</summary>
    internal static BidiClass Strong(BidiClass type) => type is BidiClass.EN or BidiClass.AN ? BidiClass.R : type;

    private static byte LevelOf(BidiClass type, byte baseLevel) => (baseLevel, type) switch // I1, I2
    {
        (0, BidiClass.R) => 1,
        (0, BidiClass.EN or BidiClass.AN) => 2,
        (1, BidiClass.L or BidiClass.EN or BidiClass.AN) => 2,
        _ => baseLevel,
    };
}
