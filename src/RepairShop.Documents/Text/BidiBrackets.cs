namespace RepairShop.Documents.Text;

/// <summary>Rule N0 of UAX #9: a pair of brackets takes one direction, so that "(12)" beside a Hebrew name keeps its shape.</summary>
internal static class BidiBrackets
{
    private const string Opening = "([{⁅⁽₍〈《「『【〔〖〘〚（［｛｟｢⟨⟦❨";
    private const string Closing = ")]}⁆⁾₎〉》」』】〕〗〙〛）］｝｠｣⟩⟧❩";

    public static void Resolve(string text, int[] at, BidiClass[] types, bool[] marks, BidiClass direction)
    {
        foreach (var (open, close) in Pairs(text, at, types))
        {
            var inside = StrongInside(types, open, close, direction);
            if (inside is null)
                continue;
            var set = inside.Value == direction || ContextBefore(types, open, direction) != inside.Value ? direction : inside.Value;
            Set(types, marks, open, set);
            Set(types, marks, close, set);
        }
    }

    private static List<(int Open, int Close)> Pairs(string text, int[] at, BidiClass[] types)
    {
        var pairs = new List<(int Open, int Close)>();
        var waiting = new List<(int Kind, int Index)>();
        for (var i = 0; i < at.Length; i++)
        {
            if (types[i] != BidiClass.ON)
                continue;
            if (Opening.IndexOf(text[at[i]], StringComparison.Ordinal) is var kind and >= 0)
            {
                if (waiting.Count == 63) // BD16: deeper nesting is given up as a whole.
                    break;
                waiting.Add((kind, i));
            }
            else if (Closing.IndexOf(text[at[i]], StringComparison.Ordinal) is var closing and >= 0
                && waiting.FindLastIndex(w => w.Kind == closing) is var match and >= 0)
            {
                pairs.Add((waiting[match].Index, i));
                waiting.RemoveRange(match, waiting.Count - match);
            }
        }
        pairs.Sort();
        return pairs;
    }

    /// <summary>The paragraph's direction if it occurs inside, else the opposite one if that occurs, else null.</summary>
    private static BidiClass? StrongInside(BidiClass[] types, int open, int close, BidiClass direction)
    {
        BidiClass? found = null;
        for (var i = open + 1; i < close; i++)
        {
            if (Bidi.Strong(types[i]) is not (BidiClass.L or BidiClass.R))
                continue;
            found = Bidi.Strong(types[i]);
            if (found == direction)
                return found;
        }
        return found;
    }

    private static BidiClass ContextBefore(BidiClass[] types, int open, BidiClass direction)
    {
        for (var i = open - 1; i >= 0; i--)
            if (Bidi.Strong(types[i]) is BidiClass.L or BidiClass.R)
                return Bidi.Strong(types[i]);
        return direction;
    }

    private static void Set(BidiClass[] types, bool[] marks, int bracket, BidiClass direction)
    {
        types[bracket] = direction;
        for (var i = bracket + 1; i < types.Length && marks[i]; i++)
            types[i] = direction;
    }
}
