using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Services.Recordings;

/// <summary>The marked speeds of a recording's exposures as typed: one for all, or one for each in order, "1/125 ×3" standing for three.</summary>
internal static class MarkList
{
    private const int MostTimes = 200;

    public static Result<IReadOnlyList<MarkedSpeed>> Read(string text)
    {
        var marks = new List<MarkedSpeed>();
        foreach (var item in text.Replace(" ×", "×", StringComparison.Ordinal).Replace("× ", "×", StringComparison.Ordinal).Replace(" x", "×", StringComparison.Ordinal)
            .Split([' ', ',', ';', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = item.Split('×', 'x');
            var read = MarkedSpeed.Parse(parts[0]);
            if (read.Mark is not { } mark)
                return new MarksNotRead(item, ReadingSentence.For(read.Refusal!));
            var times = 1;
            if (parts.Length > 2 || (parts.Length == 2 && !(int.TryParse(parts[1], out times) && times is > 0 and <= MostTimes)))
                return new MarksNotRead(item, $"“{item}” is not read: write a mark and how often, such as 1/125 ×3.");
            if (mark.LiteralSeconds is null)
                return new MarksNotRead(item, $"{mark.Text} stays open as long as it is held: there is nothing to hold a reading against.");
            marks.AddRange(Enumerable.Repeat(mark, times));
        }

        return marks;
    }

    /// <summary>The mark of each exposure; none where none is written.</summary>
    public static Result<IReadOnlyList<MarkedSpeed?>> Spread(IReadOnlyList<MarkedSpeed> marks, int exposures) => marks.Count switch
    {
        0 => new MarkedSpeed?[exposures],
        1 => Enumerable.Repeat<MarkedSpeed?>(marks[0], exposures).ToArray(),
        var count when count == exposures => marks.ToArray(),
        var count => new MarksDontFit(count, exposures),
    };
}
