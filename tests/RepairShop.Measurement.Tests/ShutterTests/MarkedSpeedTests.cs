using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Measurement.Tests.ShutterTests;

public class MarkedSpeedTests
{
    private static MarkedSpeed Mark(string text) => MarkedSpeed.Parse(text).Mark ?? throw new InvalidOperationException($"{text} is no mark");

    public class TheReference
    {
        /// <summary>
        /// Marks of the modern series and the powers of two behind them (all-digicam.jp/shutter-speed02.html, scantips.com/lights/fstop2.html);
        /// milliseconds and stops are arithmetic.
        /// </summary>
        [Theory]
        [InlineData("1", 1000, 1000, 0)]
        [InlineData("1/2", 500, 500, 0)]
        [InlineData("1/4", 250, 250, 0)]
        [InlineData("1/8", 125, 125, 0)]
        [InlineData("1/15", 62.5, 66.6667, 0.09311)]
        [InlineData("1/30", 31.25, 33.3333, 0.09311)]
        [InlineData("1/60", 15.625, 16.6667, 0.09311)]
        [InlineData("1/125", 7.8125, 8, 0.03422)]
        [InlineData("1/250", 3.90625, 4, 0.03422)]
        [InlineData("1/500", 1.953125, 2, 0.03422)]
        [InlineData("1/1000", 0.9765625, 1, 0.03422)]
        [InlineData("1/2000", 0.48828125, 0.5, 0.03422)]
        public void Of_a_modern_mark_is_a_power_of_two_or_the_mark_as_written(string text, double trueMs, double literalMs, double difference)
        {
            var reference = Mark(text).ReferenceSeconds(ReferenceRule.TrueBinary)!.Value;
            var literal = Mark(text).ReferenceSeconds(ReferenceRule.LiteralMark)!.Value;
            Assert.Equal(trueMs, reference * 1000, 1e-9);
            Assert.Equal(literalMs, literal * 1000, 5e-5);
            Assert.Equal(difference, Stops.Error(literal, reference), 5e-6);
        }

        /// <summary>Tv = −log2 t of marks before the binary series.</summary>
        [Theory]
        [InlineData("1/5", 2.32193)]
        [InlineData("1/10", 3.32193)]
        [InlineData("1/20", 4.32193)]
        [InlineData("1/25", 4.64386)]
        [InlineData("1/50", 5.64386)]
        [InlineData("1/100", 6.64386)]
        [InlineData("1/200", 7.64386)]
        [InlineData("1/300", 8.22882)]
        [InlineData("1/400", 8.64386)]
        public void Of_a_mark_outside_the_modern_series_is_literal_under_either_rule(string text, double timeValue)
        {
            Assert.Equal(timeValue, -Math.Log2(Mark(text).ReferenceSeconds(ReferenceRule.TrueBinary)!.Value), 5e-6);
            Assert.Equal(timeValue, -Math.Log2(Mark(text).ReferenceSeconds(ReferenceRule.LiteralMark)!.Value), 5e-6);
        }

        [Fact]
        public void Of_B_and_T_does_not_exist()
        {
            Assert.Null(MarkedSpeed.B.ReferenceSeconds(ReferenceRule.TrueBinary));
            Assert.Null(MarkedSpeed.T.ReferenceSeconds(ReferenceRule.LiteralMark));
        }
    }

    public class TheText
    {
        [Theory]
        [InlineData("1", "1")]
        [InlineData("1 s", "1")]
        [InlineData("½", "1/2")]
        [InlineData("0.5 s", "1/2")]
        [InlineData("0,5", "1/2")]
        [InlineData("1⁄125", "1/125")]
        [InlineData("8 ms", "1/125")]
        [InlineData("1/2.5", "1/2.5")]
        [InlineData("2s", "2 s")]
        [InlineData("2\"", "2 s")]
        [InlineData("1.5 s", "1.5 s")]
        [InlineData("0.3 s", "0.3 s")]
        [InlineData("b", "B")]
        [InlineData(" T ", "T")]
        public void Is_brought_to_one_form(string typed, string text)
        {
            Assert.Equal(text, Mark(typed).Text);
            Assert.Equal(Mark(typed), Mark(text));
        }

        [Theory]
        [InlineData("125", ReadingFault.BareMark)]
        [InlineData("2", ReadingFault.BareMark)]
        [InlineData("0", ReadingFault.Zero)]
        [InlineData("1/0", ReadingFault.DividedByZero)]
        [InlineData("X", ReadingFault.NotATime)]
        [InlineData("", ReadingFault.Empty)]
        [InlineData(null, ReadingFault.Empty)]
        [InlineData("7.77 ms", ReadingFault.NotOnADial)]
        public void That_is_no_mark_is_refused(string? typed, ReadingFault fault) =>
            Assert.Equal(new ReadingRefusal(fault, typed ?? ""), MarkedSpeed.Parse(typed).Refusal);
    }

    public class ADial
    {
        [Fact]
        public void Is_typed_in_a_row() =>
            Assert.Equal(["1", "1/2", "1/5", "2 s", "B", "T"], MarkedSpeed.ParseDial("1 1/2, 1/5;2 s\n B t 1/2").Marks.Select(m => m.Text));

        [Fact]
        public void With_a_fault_is_refused_as_a_whole()
        {
            var outcome = MarkedSpeed.ParseDial("1 1/2 50 100");
            Assert.Empty(outcome.Marks);
            Assert.Equal(new ReadingRefusal(ReadingFault.BareMark, "50"), outcome.Refusal);
        }

        [Theory]
        [InlineData("")]
        [InlineData(null)]
        [InlineData(" , ; ")]
        public void Without_marks_is_refused(string? text) => Assert.Equal(ReadingFault.Empty, MarkedSpeed.ParseDial(text).Refusal!.Fault);

        [Fact]
        public void Of_endless_length_is_refused() => Assert.Equal(ReadingFault.TextTooLong, MarkedSpeed.ParseDial(new string('1', 5000)).Refusal!.Fault);
    }

    public class ASeries
    {
        [Fact]
        public void Reads_in_full_and_runs_from_slow_to_fast()
        {
            Assert.Equal(6, SpeedSeries.All.Select(s => s.Key).Distinct().Count());
            foreach (var series in SpeedSeries.All)
            {
                var times = series.Marks.Select(m => m.LiteralSeconds).OfType<double>().ToList();
                Assert.True(times.Count >= 9, series.Key);
                Assert.Equal(times.OrderDescending(), times);
                Assert.Contains(MarkedSpeed.B, series.Marks);
            }
        }

        [Fact]
        public void Made_before_the_binary_one_is_known_by_its_marks()
        {
            foreach (var series in SpeedSeries.All) Assert.Equal(series.IsOld, SpeedSeries.IsOldRow(series.Marks));
        }

        [Fact]
        public void Made_before_the_binary_one_is_literal_whatever_the_shop_has_set()
        {
            var rule = SpeedSeries.RuleFor(SpeedSeries.Old500.Marks, ReferenceRule.TrueBinary);
            Assert.Equal(ReferenceRule.LiteralMark, rule);
            Assert.Equal(1.0 / 250, Mark("1/250").ReferenceSeconds(rule));
        }

        [Theory]
        [InlineData(ReferenceRule.TrueBinary)]
        [InlineData(ReferenceRule.LiteralMark)]
        public void Of_modern_marks_follows_the_shop(ReferenceRule rule) => Assert.Equal(rule, SpeedSeries.RuleFor(SpeedSeries.Modern1000.Marks, rule));
    }

    public class Limits
    {
        /// <summary>±0.3 stop at 1/125 s and slower, ±0.45 above (ohkin.mydns.jp/archives/69, quoting JIS B 7091).</summary>
        [Theory]
        [InlineData("1", 0.3)]
        [InlineData("1/100", 0.3)]
        [InlineData("1/125", 0.3)]
        [InlineData("1/250", 0.45)]
        [InlineData("1/1000", 0.45)]
        public void Are_wider_for_marks_above_one_hundred_and_twenty_fifth(string mark, double stops) =>
            Assert.Equal(stops, SpeedLimits.Targets.StopsFor(Mark(mark)));

        [Fact]
        public void Do_not_exist_for_B() => Assert.Null(SpeedLimits.Targets.StopsFor(MarkedSpeed.B));

        [Fact]
        public void Say_where_they_come_from_and_never_call_a_standard_passed()
        {
            Assert.Contains("secondary page", SpeedLimits.Targets.Provenance);
            Assert.Contains("not inspection limits", SpeedLimits.Targets.Provenance);
        }

        [Theory]
        [InlineData(0, 0.45, 0.008)]
        [InlineData(0.3, -1, 0.008)]
        [InlineData(0.3, 0.45, double.NaN)]
        public void That_are_none_are_misuse(double slow, double fast, double boundary) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => new SpeedLimits("Ours", slow, fast, boundary, "The owner's choice."));
    }
}
