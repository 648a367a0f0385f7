using MailKit.Security;
using Microsoft.Extensions.Configuration;
using RepairShop.Services.Post;
using Xunit;

namespace RepairShop.Services.Tests.Post;

public sealed class MailSettingsTests
{
    private static MailSettings Read(params (string Key, string Value)[] values) => MailSettings.Read(
        new ConfigurationBuilder().AddInMemoryCollection(values.ToDictionary(pair => "Mail:" + pair.Key, pair => (string?)pair.Value)).Build(), "/data");

    [Fact]
    public void Without_a_host_letters_go_into_the_post_folder()
    {
        Assert.True(Read().GoesToFolder);
        Assert.Equal(Path.Combine("/data", "post"), Read().Folder);
    }

    [Fact]
    public void Encryption_is_required_unless_told_otherwise() => Assert.Equal(SecureSocketOptions.StartTls, Read(("Host", "mail.example.com")).Tls);

    [Theory]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    [InlineData("::1")]
    public void Without_encryption_only_to_this_machine(string host) =>
        Assert.Equal(SecureSocketOptions.None, Read(("Host", host), ("Tls", "None")).Tls);

    [Theory]
    [InlineData("Tls", "None", "Mail:Tls can be None for a mail server on this machine only")]
    [InlineData("Tls", "maybe", "Mail:Tls can't be “maybe”")]
    [InlineData("Port", "smtp", "Mail:Port can't be “smtp”")]
    [InlineData("Port", "70000", "Mail:Port can't be “70000”")]
    public void A_setting_that_can_not_be_used_is_named(string key, string value, string sentence) =>
        Assert.StartsWith(sentence, Assert.Throws<InvalidOperationException>(() => Read(("Host", "mail.example.com"), (key, value))).Message);
}
