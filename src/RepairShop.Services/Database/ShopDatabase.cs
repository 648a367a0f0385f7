using Microsoft.Extensions.Configuration;

namespace RepairShop.Services.Database;

/// <summary>
/// The database this program works with: the server named by <c>ConnectionStrings:Shop</c>, else a private one in the
/// data folder, which stops when this object is disposed.
/// </summary>
public sealed class ShopDatabase : IAsyncDisposable
{
    private readonly PrivateCluster? cluster;

    private ShopDatabase(string connectionString, PrivateCluster? cluster)
    {
        ConnectionString = connectionString;
        this.cluster = cluster;
    }

    public string ConnectionString { get; }

    public bool IsPrivate => cluster is not null;

    /// <summary>
    /// For a command beside the program proper: uses the private server that program is running, and starts one only where
    /// none runs.
    /// </summary>
    public static async Task<ShopDatabase> JoinAsync(IConfiguration configuration, string dataDirectory, CancellationToken ct = default)
    {
        if (configuration.GetConnectionString("Shop") is { Length: > 0 } named) return new(named, null);
        return await PrivateCluster.FindRunningAsync(dataDirectory, ct) is { } running
            ? new(running, null)
            : await OpenAsync(configuration, dataDirectory, ct);
    }

    public static async Task<ShopDatabase> OpenAsync(IConfiguration configuration, string dataDirectory, CancellationToken ct = default)
    {
        if (configuration.GetConnectionString("Shop") is { Length: > 0 } named) return new(named, null);
        var cluster = await PrivateCluster.StartAsync(new() { DataDirectory = dataDirectory }, ct);
        return new(cluster.ConnectionString(), cluster);
    }

    public ValueTask DisposeAsync() => cluster?.DisposeAsync() ?? ValueTask.CompletedTask;
}
