using RepairShop.Measurement.Statistics;
using Xunit;

namespace RepairShop.Measurement.Tests.Statistics;

public class UncertaintyTests
{
    public class TheCoverageFactor
    {
        /// <summary>JCGM 100:2008, table G.2, column 95 %.</summary>
        [Theory]
        [InlineData(1, 12.71)]
        [InlineData(2, 4.30)]
        [InlineData(3, 3.18)]
        [InlineData(4, 2.78)]
        [InlineData(5, 2.57)]
        [InlineData(9, 2.26)]
        [InlineData(10, 2.23)]
        [InlineData(19, 2.09)]
        [InlineData(50, 2.01)]
        [InlineData(100, 1.984)]
        public void Is_Students_t(double degrees, double factor) =>
            Assert.Equal(factor, Coverage.Factor95(degrees), degrees == 100 ? 5e-4 : 5e-3);

        /// <summary>Three, five, six and ten exposures: standard tables, from memory.</summary>
        [Theory]
        [InlineData(3, 4.303)]
        [InlineData(5, 2.776)]
        [InlineData(6, 2.571)]
        [InlineData(10, 2.262)]
        public void For_a_few_exposures_is_that_of_the_tables(int exposures, double factor) =>
            Assert.Equal(factor, Coverage.Factor95(exposures - 1), 5e-4);

        /// <summary>At two degrees of freedom Student's distribution has a closed quantile: t = a·√(2/(1 − a²)) with a = 2p − 1.</summary>
        [Fact]
        public void Agrees_with_the_closed_form_at_two_degrees_of_freedom() =>
            Assert.Equal(0.95 * Math.Sqrt(2 / (1 - 0.95 * 0.95)), Coverage.Factor95(2), 1e-9);

        [Fact]
        public void Of_a_term_known_exactly_is_the_normal_one() =>
            Assert.Equal(1.959963984540054, Coverage.Factor95(double.PositiveInfinity), 1e-12);

        [Fact]
        public void Has_no_step_where_Student_gives_way_to_the_normal() =>
            Assert.Equal(Coverage.Factor95(999_999), Coverage.Factor95(1_000_000), 1e-5);

        [Theory]
        [InlineData(0.999)]
        [InlineData(-1)]
        [InlineData(double.NaN)]
        public void Below_one_degree_of_freedom_is_misuse(double degrees) =>
            Assert.Throws<ArgumentOutOfRangeException>("degreesOfFreedom", () => Coverage.Factor95(degrees));
    }

    public class ABudget
    {
        /// <summary>JCGM 100:2008, G.4.1, example: 0.25, 0.57 and 0.82 % with 9, 4 and 14 degrees of freedom.</summary>
        [Fact]
        public void Combines_as_in_the_Guides_example()
        {
            var combined = ExpandedUncertainty.Combine(
                [new(UncertaintySource.Other, 0.25, 9), new(UncertaintySource.Other, 0.57, 4), new(UncertaintySource.Other, 0.82, 14)]);
            Assert.Equal(1.03, combined.Standard, 5e-3);
            Assert.Equal(19.0, combined.DegreesOfFreedom, 0.05);
            Assert.Equal(2.09, combined.CoverageFactor, 5e-3);
            Assert.Equal(2.2, combined.Expanded, 0.05);
            Assert.Equal(3, combined.Terms.Count);
        }

        /// <summary>EA-4/02 M:2022, S2: a 10 kg weight, 22.5, 8.66, 14.4, 5.77 and 5.77 mg give 29.2 mg.</summary>
        [Fact]
        public void Adds_squares_as_in_the_calibration_of_a_weight() =>
            Assert.Equal(29.2, ExpandedUncertainty.Combine(
                [.. new[] { 22.5, 8.66, 14.4, 5.77, 5.77 }.Select(u => new UncertaintyTerm(UncertaintySource.Other, u, double.PositiveInfinity))]).Standard, 0.1);

        [Fact]
        public void Of_scatter_alone_is_t_times_s_over_root_n()
        {
            var combined = ExpandedUncertainty.Combine([UncertaintyTerm.Scatter(Summary.Of([7, 8, 9]))!]);
            Assert.Equal(4.302652729911275 / Math.Sqrt(3), combined.Expanded, 1e-9);
            Assert.Equal(2, combined.DegreesOfFreedom, 1e-12);
        }

        [Fact]
        public void Of_microseconds_combines_like_one_of_seconds()
        {
            var small = ExpandedUncertainty.Combine([new(UncertaintySource.Other, 3e-90, 4), new(UncertaintySource.Other, 4e-90, 9)]);
            var large = ExpandedUncertainty.Combine([new(UncertaintySource.Other, 3, 4), new(UncertaintySource.Other, 4, 9)]);
            Assert.Equal(5, large.Standard, 1e-12);
            Assert.Equal(large.DegreesOfFreedom, small.DegreesOfFreedom, 1e-9);
            Assert.Equal(large.Expanded * 1e-90, small.Expanded, 1e-100);
        }

        [Fact]
        public void Of_nothing_but_zeros_is_zero() =>
            Assert.Equal(0, ExpandedUncertainty.Combine([UncertaintyTerm.Resolution(0)]).Expanded);

        [Fact]
        public void Without_terms_is_misuse() =>
            Assert.Throws<ArgumentOutOfRangeException>("terms", () => ExpandedUncertainty.Combine([]));
    }

    public class ATerm
    {
        /// <summary>JCGM 100:2008, F.2.2.1: a step of r is u = 0.29·r.</summary>
        [Fact]
        public void Of_resolution_is_the_step_over_root_twelve() =>
            Assert.Equal(0.2887, UncertaintyTerm.Resolution(1).StandardUncertainty, 5e-5);

        /// <summary>JCGM 100:2008, 4.3.7: ±a is u = a/√3.</summary>
        [Fact]
        public void Of_a_trigger_is_the_half_width_over_root_three() =>
            Assert.Equal(1 / Math.Sqrt(3), UncertaintyTerm.Trigger(1).StandardUncertainty, 1e-15);

        [Fact]
        public void Of_scatter_does_not_exist_for_one_reading() =>
            Assert.Null(UncertaintyTerm.Scatter(Summary.Of([8.1])));

        [Theory]
        [InlineData(-1e-9)]
        [InlineData(double.NaN)]
        [InlineData(double.PositiveInfinity)]
        public void That_is_no_uncertainty_is_misuse(double value)
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyTerm.Resolution(value));
            Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyTerm.Trigger(value));
            Assert.Throws<ArgumentOutOfRangeException>(() => new UncertaintyTerm(UncertaintySource.Other, value, 5));
        }

        [Fact]
        public void Without_a_degree_of_freedom_is_misuse() =>
            Assert.Throws<ArgumentOutOfRangeException>("degreesOfFreedom", () => new UncertaintyTerm(UncertaintySource.Other, 1, 0));
    }
}
