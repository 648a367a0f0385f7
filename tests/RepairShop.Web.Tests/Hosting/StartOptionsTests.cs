using RepairShop.Web.Hosting;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

public class StartOptionsTests
{
    [Fact]
    public void Nothing_said_means_loopback_on_port_5080_with_data_in_its_own_folder()
    {
        var start = StartOptions.Read([]).Value!;
        Assert.Equal("http://localhost:5080", start.Address);
        Assert.Equal(Path.GetFullPath("data/shop"), start.DataDirectory);
        Assert.False(start.Demo);
    }

    [Fact]
    public void The_demo_has_a_data_folder_of_its_own() =>
        Assert.Equal(Path.GetFullPath("data/demo"), StartOptions.Read(["--demo"]).Value!.DataDirectory);

    [Fact]
    public void Options_may_be_given_with_a_blank_or_an_equals_sign()
    {
        var start = StartOptions.Read(["--data=/tmp/a", "--port", "6000", "--listen", "::1", "--demo"]).Value!;
        Assert.Equal(("/tmp/a", "http://[::1]:6000", true), (start.DataDirectory, start.Address, start.Demo));
    }

    [Fact]
    public void What_is_not_ours_goes_on_to_the_configuration() =>
        Assert.Equal(["--ConnectionStrings:Shop=Host=x"], StartOptions.Read(["--ConnectionStrings:Shop=Host=x", "--demo"]).Value!.Arguments);

    [Fact]
    public void Reset_password_names_whose() =>
        Assert.Equal("ada@example.com", StartOptions.Read(["reset-password", "ada@example.com"]).Value!.ResetPasswordFor);

    [Theory]
    [InlineData("0")]
    [InlineData("65536")]
    [InlineData("abc")]
    public void A_port_that_is_none_is_refused(string port) =>
        Assert.Equal(new PortUnusable(port), StartOptions.Read(["--port", port]).Failure);

    [Theory]
    [InlineData("--data")]
    [InlineData("--port")]
    [InlineData("reset-password")]
    public void An_option_without_its_value_is_refused(string option) =>
        Assert.Equal(new StartOptionMissing(option), StartOptions.Read([option]).Failure);
}
