using RepairShop.Domain.Post;
using Xunit;

namespace RepairShop.Domain.Tests.Post;

public sealed class MailTextFillTests
{
    private static readonly Dictionary<string, string> Values = new() { ["customer"] = "Łukasz {shop}", ["shop"] = "The Bench" };

    [Fact]
    public void Placeholders_are_filled_whatever_their_case() =>
        Assert.Equal("Dear Łukasz {shop}, from The Bench", MailTextFill.Fill("Dear {Customer}, from {shop}", Values).Text);

    [Fact]
    public void A_value_is_not_read_for_placeholders_itself() =>
        Assert.Equal("Łukasz {shop}", MailTextFill.Fill("{customer}", Values).Text);

    [Fact]
    public void Unknown_ones_stay_and_are_reported_once()
    {
        var filled = MailTextFill.Fill("{nmae} and {nmae} and {shop} and {dew}", Values);
        Assert.Equal("{nmae} and {nmae} and The Bench and {dew}", filled.Text);
        Assert.Equal(["nmae", "dew"], filled.Unknown);
    }

    [Theory]
    [InlineData("Camera\r\nBcc: everybody@example.com", "Camera  Bcc: everybody@example.com")]
    [InlineData("A\u2028B\u0000C\tD", "A B C D")]
    [InlineData("  Nguyễn, יוסף  ", "Nguyễn, יוסף")]
    public void A_line_of_a_letters_head_can_not_begin_another(string text, string line) => Assert.Equal(line, OutboxRules.OneLine(text));

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 2)]
    [InlineData(5, 16)]
    [InlineData(8, 128)]
    [InlineData(50, 240)]
    public void Each_wait_is_twice_the_one_before_up_to_four_hours(int attempts, int minutes) =>
        Assert.Equal(TimeSpan.FromMinutes(minutes), OutboxRules.WaitAfter(attempts));

    [Theory]
    [InlineData(MailState.Waiting, typeof(MailStillUnderWay))]
    [InlineData(MailState.HandingOver, typeof(MailStillUnderWay))]
    [InlineData(MailState.Sent, null)]
    [InlineData(MailState.InDoubt, null)]
    [InlineData(MailState.GivenUp, null)]
    public void A_letter_is_repeated_only_when_it_is_no_longer_under_way(MailState state, Type? refusal) =>
        Assert.Equal(refusal, OutboxRules.MayRepeat(new OutboxMail { State = state }, repeatedAlready: false).Failure?.GetType());

    [Fact]
    public void A_letter_is_repeated_once() =>
        Assert.Equal(new MailRepeatedAlready(), OutboxRules.MayRepeat(new OutboxMail { State = MailState.Sent }, repeatedAlready: true).Failure);
}
