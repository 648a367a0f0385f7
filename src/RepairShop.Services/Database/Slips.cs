namespace RepairShop.Services.Database;

/// <summary>How many slips of the finger lie between two words: a letter too many, missing or wrong, or two neighbours swapped
/// (optimal string alignment; Damerau 1964 counts the same four slips).</summary>
public static class Slips
{
    /// <param name="typed">One word.</param>
    /// <param name="meant">The other.</param>
    /// <param name="most">More than this is not counted on: any larger number may come back.</param>
    public static int Between(string typed, string meant, int most)
    {
        if (Math.Abs(typed.Length - meant.Length) > most)
            return most + 1;
        var (twoBack, back, row) = (new int[meant.Length + 1], new int[meant.Length + 1], new int[meant.Length + 1]);
        for (var j = 0; j <= meant.Length; j++)
            back[j] = j;
        for (var i = 1; i <= typed.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= meant.Length; j++)
            {
                var cost = typed[i - 1] == meant[j - 1] ? 0 : 1;
                row[j] = Math.Min(Math.Min(row[j - 1], back[j]) + 1, back[j - 1] + cost);
                if (i > 1 && j > 1 && typed[i - 1] == meant[j - 2] && typed[i - 2] == meant[j - 1])
                    row[j] = Math.Min(row[j], twoBack[j - 2] + 1);
            }

            (twoBack, back, row) = (back, row, twoBack);
        }

        return back[meant.Length];
    }
}
