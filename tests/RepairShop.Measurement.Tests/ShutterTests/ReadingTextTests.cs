using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Measurement.Tests.ShutterTests;

public class ReadingTextTests
{
    private static readonly CultureInfo German = CultureInfo.GetCultureInfo("de-DE");

    public class One
    {
        [Theory]
        [InlineData("1/125", 0.008)]
        [InlineData("8.1 ms", 0.0081)]
        [InlineData("8,1ms", 0.0081)]
        [InlineData("0.5", 0.5)]
        [InlineData(".5", 0.5)]
        [InlineData("0,5", 0.5)]
        [InlineData("0,125", 0.125)]
        [InlineData("½", 0.5)]
        [InlineData("¼ s", 0.25)]
        [InlineData("⅛", 0.125)]
        [InlineData("⅓s", 1.0 / 3)]
        [InlineData("1½", 1.5)]
        [InlineData("⅟125", 0.008)]
        [InlineData("1⁄125", 0.008)]
        [InlineData("1∕125", 0.008)]
        [InlineData("1 / 125", 0.008)]
        [InlineData("1/ 125", 0.008)]
        [InlineData("1 /125 s", 0.008)]
        [InlineData("1/125 s", 0.008)]
        [InlineData("1/125\"", 0.008)]
        [InlineData("1/7.5", 1 / 7.5)]
        [InlineData("10/300", 1.0 / 30)]
        [InlineData("1.02 s", 1.02)]
        [InlineData("1\"", 1)]
        [InlineData("1″", 1)]
        [InlineData("1''", 1)]
        [InlineData("2s", 2)]
        [InlineData("1.", 1)]
        [InlineData("2 sec.", 2)]
        [InlineData("+2 s", 2)]
        [InlineData("500 µs", 0.0005)]
        [InlineData("500 μs", 0.0005)]
        [InlineData("500 us", 0.0005)]
        [InlineData("8.125 ms", 0.008125)]
        [InlineData("8.1\u00A0ms", 0.0081)]
        [InlineData("8.1\u202Fms", 0.0081)]
        [InlineData("8.1\u2009ms", 0.0081)]
        [InlineData("  8.1\tMS \r\n", 0.0081)]
        [InlineData("\u200E8.1 ms\u200F", 0.0081)]
        [InlineData("１／１２５", 0.008)]
        [InlineData("5e-3", 0.005)]
        [InlineData("2 min", 120)]
        [InlineData("10 µs", 10e-6)]
        [InlineData("60 min", 3600)]
        [InlineData("3600", 3600)]
        public void Is_read_as_photographers_write_it(string text, double seconds)
        {
            var outcome = ReadingText.Parse(text, CultureInfo.InvariantCulture);
            Assert.Null(outcome.Refusal);
            Assert.Equal(seconds, outcome.Reading!.Seconds, seconds * 1e-12);
        }

        [Theory]
        [InlineData("", ReadingFault.Empty, "")]
        [InlineData(null, ReadingFault.Empty, "")]
        [InlineData(" \u00A0\t ; ", ReadingFault.Empty, "")]
        [InlineData("1/0", ReadingFault.DividedByZero, "1/0")]
        [InlineData("0/0", ReadingFault.DividedByZero, "0/0")]
        [InlineData("1/0.00", ReadingFault.DividedByZero, "1/0.00")]
        [InlineData("abc", ReadingFault.NotATime, "abc")]
        [InlineData("ms", ReadingFault.NotATime, "ms")]
        [InlineData("1//125", ReadingFault.NotATime, "1//125")]
        [InlineData("1/125/2", ReadingFault.NotATime, "1/125/2")]
        [InlineData("--1", ReadingFault.NotATime, "--1")]
        [InlineData("8.1\u0001ms", ReadingFault.NotATime, "8.1\u0001ms")]
        [InlineData("'; DROP TABLE x", ReadingFault.NotATime, "'")]
        [InlineData("0", ReadingFault.Zero, "0")]
        [InlineData("0.000 ms", ReadingFault.Zero, "0.000 ms")]
        [InlineData("-0", ReadingFault.Zero, "-0")]
        [InlineData("0/125", ReadingFault.Zero, "0/125")]
        [InlineData("-1/125", ReadingFault.Negative, "-1/125")]
        [InlineData("−8 ms", ReadingFault.Negative, "−8 ms")]
        [InlineData("NaN", ReadingFault.NotFinite, "NaN")]
        [InlineData("∞", ReadingFault.NotFinite, "∞")]
        [InlineData("-Infinity", ReadingFault.NotFinite, "-Infinity")]
        [InlineData("1e400", ReadingFault.TooLong, "1e400")]
        [InlineData("1e-400", ReadingFault.TooShort, "1e-400")]
        [InlineData("1e99999", ReadingFault.TooLong, "1e99999")]
        [InlineData("9.9 µs", ReadingFault.TooShort, "9.9 µs")]
        [InlineData("3601 s", ReadingFault.TooLong, "3601 s")]
        [InlineData("61 min", ReadingFault.TooLong, "61 min")]
        [InlineData("8 km", ReadingFault.NotATime, "km")]
        [InlineData("8km", ReadingFault.UnknownUnit, "8km")]
        [InlineData("1,000", ReadingFault.AmbiguousSeparator, "1,000")]
        [InlineData("8,125 ms", ReadingFault.AmbiguousSeparator, "8,125 ms")]
        [InlineData("1/1,000", ReadingFault.AmbiguousSeparator, "1/1,000")]
        [InlineData("1/1.000", ReadingFault.AmbiguousSeparator, "1/1.000")]
        [InlineData("1/1'000", ReadingFault.AmbiguousSeparator, "1/1'000")]
        [InlineData("1’000", ReadingFault.AmbiguousSeparator, "1’000")]
        [InlineData("1,234.5", ReadingFault.AmbiguousSeparator, "1,234.5")]
        [InlineData("1.234,5 ms", ReadingFault.AmbiguousSeparator, "1.234,5 ms")]
        [InlineData("1 000", ReadingFault.AmbiguousSeparator, "1 000")]
        [InlineData("1\u202F250 ms", ReadingFault.AmbiguousSeparator, "1 250 ms")]
        [InlineData("1 1/2", ReadingFault.AmbiguousFraction, "1 1/2")]
        [InlineData("1 ½ s", ReadingFault.AmbiguousFraction, "1 ½ s")]
        [InlineData("1/125 1/130", ReadingFault.MoreThanOne, "1/125 1/130")]
        public void Is_refused_with_its_reason_and_its_text(string? text, ReadingFault fault, string offending)
        {
            var outcome = ReadingText.Parse(text, CultureInfo.InvariantCulture);
            Assert.Null(outcome.Reading);
            Assert.Equal(new ReadingRefusal(fault, offending), outcome.Refusal);
        }

        [Fact]
        public void Over_long_text_is_refused_and_quoted_short()
        {
            var outcome = ReadingText.Parse(new string('1', 65), CultureInfo.InvariantCulture);
            Assert.Equal(new ReadingRefusal(ReadingFault.TextTooLong, new string('1', 40) + "…"), outcome.Refusal);
        }

        [Fact]
        public void A_quote_is_never_cut_through_a_surrogate_pair()
        {
            var outcome = ReadingText.Parse(new string('x', 39) + "📷📷📷", CultureInfo.InvariantCulture);
            Assert.Equal(new string('x', 39) + "…", outcome.Refusal!.Text);
        }
    }

    public class TheCulture
    {
        [Fact]
        public void Makes_its_own_decimal_sign_certain()
        {
            Assert.Equal(0.008125, ReadingText.Parse("8,125 ms", German).Reading!.Seconds, 1e-15);
            Assert.Equal(ReadingFault.AmbiguousSeparator, ReadingText.Parse("8.125 ms", German).Refusal!.Fault);
        }

        [Fact]
        public void Does_not_make_a_grouped_denominator_certain()
        {
            Assert.Equal(ReadingFault.AmbiguousSeparator, ReadingText.Parse("1/1,000", German).Refusal!.Fault);
            Assert.Equal(ReadingFault.AmbiguousSeparator, ReadingText.Parse("1/1.000", German).Refusal!.Fault);
        }

        [Theory]
        [InlineData("8.1 ms")]
        [InlineData("8,1 ms")]
        [InlineData("1/125")]
        [InlineData("I/125")]
        public void Of_the_thread_changes_nothing(string text)
        {
            var before = CultureInfo.CurrentCulture;
            try
            {
                var outcomes = new[] { "en-GB", "de-DE", "tr-TR", "fa-IR", "ja-JP" }.Select(name =>
                {
                    CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);
                    return ReadingText.Parse(text, CultureInfo.InvariantCulture);
                }).ToList();
                Assert.Single(outcomes.Distinct());
            }
            finally
            {
                CultureInfo.CurrentCulture = before;
            }
        }
    }

    public class AList
    {
        [Theory]
        [InlineData("1/125 1/120 1/130", new[] { 1 / 125.0, 1 / 120.0, 1 / 130.0 })]
        [InlineData("8.1 ms 8.2 ms;8,3ms\n8.4 ms", new[] { 0.0081, 0.0082, 0.0083, 0.0084 })]
        [InlineData("8,1 ms, 8,2 ms,\r\n8,3 ms,", new[] { 0.0081, 0.0082, 0.0083 })]
        [InlineData("8.1, 8.2, 8.3 ms", new[] { 0.0081, 0.0082, 0.0083 })]
        [InlineData("8.1 8.2 8.3 ms", new[] { 0.0081, 0.0082, 0.0083 })]
        [InlineData("1/125, 8.1 ms", new[] { 0.008, 0.0081 })]
        [InlineData("1; 1/2", new[] { 1, 0.5 })]
        [InlineData("1, 1/2", new[] { 1, 0.5 })]
        [InlineData("½ 0.51 s", new[] { 0.5, 0.51 })]
        [InlineData("1\" 1.02\" 0.98\"", new[] { 1, 1.02, 0.98 })]
        public void Is_parted_by_blanks_semicolons_lines_and_commas_before_blanks(string text, double[] seconds)
        {
            var outcome = ReadingText.ParseLine(text, CultureInfo.InvariantCulture);
            Assert.Null(outcome.Refusal);
            Assert.Equal(seconds, outcome.Readings.Select(r => Math.Round(r.Seconds, 15)), (a, b) => Math.Abs(a - b) <= 1e-12);
        }

        [Theory]
        [InlineData("8.1 ms 1/0 abc", ReadingFault.DividedByZero, "1/0")]
        [InlineData("8.1 ms 8.2 8.3", ReadingFault.UnitMissing, "8.2")]
        [InlineData("8.1 ms 8.2 8.3 ms", ReadingFault.UnitMissing, "8.2")]
        [InlineData("8,1,8,2", ReadingFault.AmbiguousSeparator, "8,1,8,2")]
        [InlineData("125 126 124", ReadingFault.AmbiguousSeparator, "125 126")]
        [InlineData("1 1/2", ReadingFault.AmbiguousFraction, "1 1/2")]
        [InlineData("1/1 250", ReadingFault.AmbiguousSeparator, "1/1 250")]
        [InlineData("1/1\u202F250 1/1\u202F300", ReadingFault.AmbiguousSeparator, "1/1 250")]
        [InlineData("1/2 000", ReadingFault.AmbiguousSeparator, "1/2 000")]
        [InlineData("⅟1 250", ReadingFault.AmbiguousSeparator, "⅟1 250")]
        public void Is_refused_as_a_whole_with_the_first_fault(string text, ReadingFault fault, string offending)
        {
            var outcome = ReadingText.ParseLine(text, CultureInfo.InvariantCulture);
            Assert.Empty(outcome.Readings);
            Assert.Equal(new ReadingRefusal(fault, offending), outcome.Refusal);
        }

        [Fact]
        public void Keeps_each_reading_as_typed() =>
            Assert.Equal(["1/125", "8,1 ms"], ReadingText.ParseLine("1/125;  8,1 ms", CultureInfo.InvariantCulture).Readings.Select(r => r.Text));

        [Fact]
        public void Of_more_than_four_thousand_characters_is_refused() =>
            Assert.Equal(ReadingFault.TextTooLong, ReadingText.ParseLine(string.Concat(Enumerable.Repeat("1/8 ", 1001)), CultureInfo.InvariantCulture).Refusal!.Fault);

        [Fact]
        public void Of_four_thousand_characters_is_read() =>
            Assert.Equal(1000, ReadingText.ParseLine(string.Concat(Enumerable.Repeat("1/8 ", 1000)), CultureInfo.InvariantCulture).Readings.Count);
    }

    public class TheStep
    {
        [Theory]
        [InlineData("8.1 ms", 1e-4)]
        [InlineData("8.10 ms", 1e-5)]
        [InlineData("8 ms", 1e-3)]
        [InlineData("1.02", 0.01)]
        [InlineData("81e-4", 1e-4)]
        [InlineData("1/125", 6.4e-5)]
        [InlineData("½", 0.25)]
        public void Is_what_the_last_written_digit_is_worth(string text, double step) =>
            Assert.Equal(step, ReadingText.Parse(text, CultureInfo.InvariantCulture).Reading!.StepSeconds, step * 1e-9);
    }

    public class ForAllTexts
    {
        private static readonly Config Many = Config.QuickThrowOnFailure.WithMaxTest(2000);

        [Fact]
        public void Parsing_never_throws_and_gives_either_readings_or_a_refusal() =>
            Prop.ForAll<string>(EitherOr).Check(Many);

        [Fact]
        public void Nor_does_it_for_texts_made_of_what_times_are_made_of()
        {
            var pieces = Gen.Elements("1", "125", "0", "/", "⁄", ".", ",", " ", ";", "\n", "ms", "s", "\"", "µs", "½", "⅟", "-", "'", "e9", "\u202F", "\uD83D", "\u200F", "ı");
            Prop.ForAll(Arb.From(Gen.ArrayOf(pieces).Select(string.Concat)), EitherOr).Check(Many);
        }

        private static bool EitherOr(string? text)
        {
            foreach (var culture in new[] { CultureInfo.InvariantCulture, German })
            {
                var list = ReadingText.ParseLine(text, culture);
                var one = ReadingText.Parse(text, culture);
                if (list.Readings.Count > 0 != list.Refusal is null || (one.Reading is null) == (one.Refusal is null)) return false;
                if (!list.Readings.All(r => r.Seconds is > 9.999e-6 and < 3601 && r.StepSeconds > 0 && double.IsFinite(r.StepSeconds))) return false;
                if (one.Reading is not null && !(list.Readings is [var only] && only == one.Reading)) return false;
            }

            return true;
        }
    }
}
