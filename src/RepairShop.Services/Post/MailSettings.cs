using System.Net;
using MailKit.Security;
using Microsoft.Extensions.Configuration;

namespace RepairShop.Services.Post;

/// <summary>How letters leave the house. Without <c>Mail:Host</c> they become files in the data folder.</summary>
/// <param name="Host">Empty: files.</param>
/// <param name="Port"></param>
/// <param name="User">Empty: no sign-in.</param>
/// <param name="Password"></param>
/// <param name="From">Sender's address; empty takes the shop's.</param>
/// <param name="Tls">How the connection is secured.</param>
/// <param name="Folder">Where files go.</param>
public sealed record MailSettings(string Host, int Port, string User, string Password, string From, SecureSocketOptions Tls, string Folder)
{
    public bool GoesToFolder => Host.Length == 0;

    /// <exception cref="InvalidOperationException">A setting can't be used; the message says which and what to write.</exception>
    public static MailSettings Read(IConfiguration configuration, string dataDirectory)
    {
        var mail = configuration.GetSection("Mail");
        var host = mail["Host"]?.Trim() ?? "";
        var port = mail["Port"] is { Length: > 0 } text
            ? int.TryParse(text, out var number) && number is > 0 and < 65536
                ? number
                : throw new InvalidOperationException($"Mail:Port can't be “{text}”: write a number such as 587.")
            : 587;
        return new MailSettings(
            host, port, mail["User"] ?? "", mail["Password"] ?? "", mail["From"]?.Trim() ?? "", TlsOf(mail["Tls"], host),
            Path.Combine(dataDirectory, "post"));
    }

    private static SecureSocketOptions TlsOf(string? text, string host) => text?.Trim().ToLowerInvariant() switch
    {
        null or "" or "starttls" => SecureSocketOptions.StartTls,
        "onconnect" => SecureSocketOptions.SslOnConnect,
        "none" when IsLoopback(host) => SecureSocketOptions.None,
        "none" => throw new InvalidOperationException(
            $"Mail:Tls can be None for a mail server on this machine only, not for “{host}”: write StartTls or OnConnect."),
        _ => throw new InvalidOperationException($"Mail:Tls can't be “{text}”: write StartTls, OnConnect or None."),
    };

    private static bool IsLoopback(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address));
}
