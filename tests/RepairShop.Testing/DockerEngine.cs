using System.Net.Sockets;

namespace RepairShop.Testing;

internal static class DockerEngine
{
    private const string LocalSocket = "/var/run/docker.sock";

    /// <summary>A client without an engine is common, and finding that out through a container library is slow.</summary>
    public static async Task<bool> AnswersAsync(CancellationToken ct)
    {
        var host = Environment.GetEnvironmentVariable("DOCKER_HOST") is { Length: > 0 } set ? set : $"unix://{LocalSocket}";
        var address = new Uri(host);
        using var handler = new SocketsHttpHandler();
        if (address.Scheme == "unix")
        {
            if (!File.Exists(address.AbsolutePath)) return false;
            handler.ConnectCallback = async (_, token) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(address.AbsolutePath), token);
                return new NetworkStream(socket, ownsSocket: true);
            };
        }

        using var client = new HttpClient(handler) { Timeout = TimeSpan.FromSeconds(3) };
        var ping = address.Scheme == "unix" ? "http://localhost/_ping" : $"http://{address.Authority}/_ping";
        try
        {
            return (await client.GetAsync(new Uri(ping), ct)).IsSuccessStatusCode;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or SocketException)
        {
            return false;
        }
    }
}
