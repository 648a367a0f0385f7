using System.Globalization;
using System.Text;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Services.Recordings;
using Xunit;

namespace RepairShop.Services.Tests.Recordings;

public sealed class CsvTraceTests
{
    private static Result<ReadRecording> Read(string text, Encoding? encoding = null) =>
        WavReaderTests.Read([.. (encoding ?? Encoding.UTF8).GetPreamble(), .. (encoding ?? Encoding.UTF8).GetBytes(text)]);

    /// <summary>Ten thousand samples a second, two values a line.</summary>
    private static string Table(int rows, string delimiter = ",", string culture = "en-GB", double scale = 1, string head = "")
    {
        var numbers = CultureInfo.GetCultureInfo(culture);
        var text = new StringBuilder(head);
        for (var i = 0; i < rows; i++)
            text.Append(numbers, $"{i * 1e-4 * scale:0.#########}{delimiter}{i % 7 / 8.0:0.###}{delimiter}{-i % 5 / 4.0:0.###}\n");
        return text.ToString();
    }

    [Theory]
    [InlineData(",", "en-GB", "")]
    [InlineData(";", "en-GB", "Time;A;B\n")]
    [InlineData(";", "de-DE", "Zeit;A;B\n\n")]
    [InlineData("\t", "en-GB", "scope\tsaved\n\nTime\tA\tB\ns\tV\tV\n")]
    [InlineData("\t", "de-DE", "")]
    [InlineData(",", "en-GB", "a\nb,c\n\"text, quoted\"\nTime,A,B\n")]
    public void Traces_are_read_however_they_are_written(string delimiter, string culture, string head)
    {
        foreach (var encoding in new Encoding[] { new UTF8Encoding(false), Encoding.UTF8, Encoding.Unicode })
        {
            foreach (var ends in new[] { "\n", "\r\n" })
            {
                var read = Read(Table(50, delimiter, culture, head: head).Replace("\n", ends, StringComparison.Ordinal), encoding);
                Assert.True(read.IsDone, read.Failure?.Message);
                var recording = read.Value.Recording;
                Assert.Equal((RecordingKind.Csv, 2, 50), (read.Value.Kind, recording.ChannelCount, recording.SampleCount));
                Assert.Null(recording.FullScale);
                Assert.Equal(10_000, recording.SampleRateHz, 1e-6);
                Assert.Equal(3 / 8f, recording.Channel(0)[3]);
                Assert.Equal(-3 / 4f, recording.Channel(1)[3]);
            }
        }
    }

    [Theory]
    [InlineData("Time (ms),A,B\n", 1e3)]
    [InlineData("Time,A,B\nms,V,V\n", 1e3)]
    [InlineData("Time [µs],A,B\n", 1e6)]
    [InlineData("us,V,V\n", 1e6)]
    [InlineData("Samples,A,B\nt/ms,V,V\n", 1e3)]
    [InlineData("Time,A,B\n(us),(V),(V)\n", 1e6)]
    [InlineData("Time \uFFFDs,A,B\n", 1e6)]
    [InlineData("Time,A,B\ns,V,V\n", 1)]
    public void The_unit_of_the_time_is_read_from_the_lines_on_top(string head, double scale) =>
        Assert.Equal(10_000, Read(Table(100, scale: scale, head: head)).Value!.Recording.SampleRateHz, 1e-6);

    [Fact]
    public void A_comma_at_the_end_of_each_line_is_no_column()
    {
        var read = Read(Table(20).Replace("\n", ",\n", StringComparison.Ordinal));
        Assert.Equal(2, read.Value!.Recording.ChannelCount);
    }

    [Fact]
    public void Quoted_decimal_commas_are_read() =>
        Assert.Equal(1_000, Read("\"0,000\",\"0,5\"\n\"0,001\",\"0,25\"\n\"0,002\",\"0,125\"\n").Value!.Recording.SampleRateHz, 1e-9);

    /// <summary>Times rounded to 10 µs where the step is 23 µs, and to 100 µs: both are one even grid.</summary>
    [Theory]
    [InlineData("0.00000")]
    [InlineData("0.0000")]
    public void Times_printed_with_few_digits_are_an_even_grid(string digits)
    {
        var text = string.Concat(Enumerable.Range(0, 4411).Select(i => FormattableString.Invariant($"{(i / 44100.0).ToString(digits, CultureInfo.InvariantCulture)},{i % 3}\n")));
        Assert.Equal(44_100, Read(text).Value!.Recording.SampleRateHz, 44_100 * 0.0006);
    }

    [Fact]
    public void Uneven_times_are_brought_to_an_even_grid()
    {
        // 0, 1.2, 2.0, 3.2, 4.0 … ms: a straight line stays one.
        var text = string.Concat(Enumerable.Range(0, 101).Select(i => i % 2 == 0 ? i * 1e-4 : i * 1e-4 + 0.4e-4 * (i % 4 == 1 ? 1.5 : 1.6))
            .Select(time => FormattableString.Invariant($"{time:0.00000000},{time * 100:0.000000}\n")));
        var recording = Read(text).Value!.Recording;
        for (var i = 0; i < recording.SampleCount; i++)
            Assert.Equal(i / recording.SampleRateHz * 100, recording.Channel(0)[i], 1e-4);
    }

    [Fact]
    public void Text_in_the_middle_is_refused_with_line_and_column() =>
        Assert.Equal(new TextNotNumber(14, 2, "overflow!"), Read(Table(10, head: "Time,A,B\n") + "0.001,0,0\n0.0011,0,0\n0.0012,overflow!,0\n" + "0.0013,0,0\n").Failure);

    [Theory]
    [InlineData("NaN")]
    [InlineData("inf")]
    [InlineData("-∞")]
    [InlineData("1e400")]
    public void What_is_no_finite_number_is_refused_with_its_place(string odd) =>
        Assert.Equal(new NotFinite("Line 11, column 2"), Read(Table(10) + $"0.001,{odd},0\n").Failure);

    [Fact]
    public void Time_that_goes_back_stands_still_or_jumps_is_refused_with_its_line()
    {
        Assert.Equal(new TimeGoesBack(11), Read(Table(10) + "0.0005,0,0\n").Failure);
        Assert.Equal(new TimeStandsStill(2), Read("1,0,0\n1,0,0\n1,0,0\n").Failure);
        Assert.Equal(new TimeStandsStill(2), Read("0,001,0,5\n0,002,0,5\n0,003,0,5\n").Failure);
        Assert.Equal((11L, 10), Read(Table(10) + "0.0021,0,0\n").Failure is TimeHasGap gap ? (gap.Line, (int)Math.Round(gap.GapSeconds / gap.StepSeconds) - 1) : default);
    }

    [Fact]
    public void Tables_that_are_no_trace_are_refused()
    {
        Assert.Equal(new NoNumbers(), Read("these are\nwords only\n").Failure);
        Assert.Equal(new NoValueColumn(2), Read("Time\n0.1\n0.2\n0.3\n").Failure);
        Assert.Equal(new ColumnsDiffer(11, 2, 3), Read(Table(10) + "0.001,0\n").Failure);
        Assert.Equal(new TooManyColumns(1, 10), Read("0,1,2,3,4,5,6,7,8,9\n1,1,2,3,4,5,6,7,8,9\n").Failure);
        Assert.Equal(new TooFewRows(2), Read("0,1\n0.001,2\n").Failure);
        Assert.Equal(new LineTooLong(1), Read(new string('1', 50_000)).Failure);
        Assert.IsType<LineTooLong>(Read("0,1\n0.001,\"" + new string('1', 50_000)).Failure);
        Assert.IsType<TooLong>(Read("0,1\n1,1\n601,1\n").Failure);
        Assert.IsType<RateOutOfRange>(Read("0,1\n0.1,1\n0.2,1\n").Failure);
    }
}
