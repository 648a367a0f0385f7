using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public sealed class TypedTextTests
{
    [Theory]
    [InlineData("  Ines \t Halloway\r\n", "Ines   Halloway")]
    [InlineData("a\u0000b\u0007c\u001b[31m", "abc[31m")]
    [InlineData("safe\u202egnp.exe\u2066", "safegnp.exe")]
    [InlineData("\ud800broken", "broken")]
    [InlineData("👩‍🔧 יוסף 山田", "👩‍🔧 יוסף 山田")]
    [InlineData(" \u200b \u2060\ufeff ", "")]
    [InlineData(null, "")]
    public void One_line_keeps_letters_and_drops_what_controls(string? typed, string kept) => Assert.Equal(kept, TypedText.OneLine(typed));

    [Fact]
    public void Several_lines_keep_their_ends() => Assert.Equal("one\ntwo\n\nthree", TypedText.Lines("one\r\ntwo\n\u0001\nthree  "));

    [Fact]
    public void Each_thing_is_named_once() => Assert.Equal(["case", "strap"], TypedText.Each(["case", " Case ", "", "strap"]));
}
