using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using MimeKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace RepairShop.Services.Tests.Post;

/// <summary>A mail server inside the test, on a free port of this machine.</summary>
internal sealed class MailHost : IAsyncDisposable
{
    private readonly CancellationTokenSource stop = new();
    private readonly Task running;

    private MailHost(int port, bool refuse, TimeSpan delay)
    {
        Port = port;
        var provider = new ServiceProvider();
        provider.Add(new Store(this, refuse, delay));
        var options = new SmtpServerOptionsBuilder().ServerName("localhost")
            .Endpoint(endpoint => endpoint.Endpoint(new IPEndPoint(IPAddress.Loopback, port))).Build();
        running = new SmtpServer.SmtpServer(options, provider).StartAsync(stop.Token);
    }

    public int Port { get; }

    public ConcurrentQueue<MimeMessage> Messages { get; } = new();

    public static async Task<MailHost> StartAsync(bool refuse = false, TimeSpan delay = default)
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        var port = ((IPEndPoint)probe.LocalEndpoint).Port;
        probe.Stop();
        var host = new MailHost(port, refuse, delay);
        for (var attempt = 0; ; attempt++)
        {
            using var client = new TcpClient();
            try
            {
                await client.ConnectAsync(IPAddress.Loopback, port);
                return host;
            }
            catch (SocketException) when (attempt < 100)
            {
                await Task.Delay(20); // not listening yet
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await Task.WhenAny(running, Task.Delay(TimeSpan.FromSeconds(5)));
        stop.Dispose();
    }

    private sealed class Store(MailHost host, bool refuse, TimeSpan delay) : MessageStore
    {
        public override async Task<SmtpResponse> SaveAsync(
            ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
        {
            await Task.Delay(delay, cancellationToken);
            if (refuse)
                return SmtpResponse.MailboxUnavailable;
            using var bytes = new MemoryStream(buffer.ToArray());
            host.Messages.Enqueue(await MimeMessage.LoadAsync(bytes, cancellationToken));
            return SmtpResponse.Ok;
        }
    }
}
