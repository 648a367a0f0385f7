using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public sealed class NumberFormatTests
{
    [Theory]
    [InlineData("{year}-{number:0000}", "2026-0042")]
    [InlineData("R{number}", "R42")]
    [InlineData("{number:000}.{year}", "042.2026")]
    public void A_number_is_written_as_the_format_says(string format, string written)
    {
        Assert.True(NumberFormat.IsValid(format));
        Assert.Equal(written, NumberFormat.Write(format, 2026, 42));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{year}")]
    [InlineData("{number}{number}")]
    [InlineData("{number}/{year}")]
    [InlineData("{number}?")]
    [InlineData("{numbers}")]
    [InlineData("{number:0000000000}")]
    [InlineData("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa{number}")]
    public void A_format_that_would_not_give_a_usable_number_is_refused(string format)
    {
        Assert.False(NumberFormat.IsValid(format));
        Assert.Throws<ArgumentException>(() => NumberFormat.Write(format, 2026, 1));
    }

    [Fact]
    public void Only_a_format_with_the_year_starts_anew() =>
        Assert.Equal((true, false), (NumberFormat.HasYear("{year}-{number}"), NumberFormat.HasYear("{number}")));
}
