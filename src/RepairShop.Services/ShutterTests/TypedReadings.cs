using System.Globalization;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Services.ShutterTests;

/// <summary>From the form's texts to readings; each text that can't be read has a sentence of its own.</summary>
internal sealed record TypedReadings(List<Reading> Readings, List<ReadingsNotRead> Refused)
{
    private const int LongestKept = 40;

    public static TypedReadings Read(IReadOnlyList<SpeedTyped> speeds, Guid testId, DateTimeOffset at)
    {
        var all = new TypedReadings([], []);
        for (var i = 0; i < speeds.Count; i++)
        {
            if (!string.IsNullOrWhiteSpace(speeds[i].Text))
                all.Add(speeds[i], $"Speeds[{i}].Text", testId, at);
        }

        return all;
    }

    private void Add(SpeedTyped speed, string field, Guid testId, DateTimeOffset at)
    {
        var mark = MarkedSpeed.Parse(speed.Mark).Mark;
        if (mark?.LiteralSeconds is null)
        {
            Refused.Add(new ReadingsNotRead(field, mark is null
                ? $"“{speed.Mark}” is no mark of a dial: load the page anew."
                : $"{mark.Text} stays open as long as it is held, so there is no time to hold a reading against: leave this empty."));
            return;
        }

        var read = ReadingText.ParseLine(speed.Text, CultureInfo.CurrentCulture);
        if (read.Refusal is { } refusal)
        {
            Refused.Add(new ReadingsNotRead(field, ReadingSentence.For(refusal)));
            return;
        }

        if (read.Readings.FirstOrDefault(reading => reading.Text.Length > LongestKept) is { } tooLong)
        {
            Refused.Add(new ReadingsNotRead(field, ReadingSentence.For(new ReadingRefusal(ReadingFault.TextTooLong, tooLong.Text[..20] + "…"))));
            return;
        }

        Readings.AddRange(read.Readings.Select(reading => new Reading
        {
            ShutterTestId = testId,
            MarkedSpeed = mark.Text,
            Position = Readings.Count + 1,
            Kind = ReadingKind.Typed,
            Seconds = reading.Seconds,
            Typed = reading.Text,
            ReadAt = at,
        }));
    }
}
