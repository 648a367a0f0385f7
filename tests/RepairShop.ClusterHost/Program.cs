// A program that does nothing but own a private cluster, so that tests can end it in every way a program may end.
using System.Runtime.InteropServices;
using Npgsql;
using RepairShop.Services.Database;

var ended = new TaskCompletionSource<string>();
using var interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, End);
using var terminated = PosixSignalRegistration.Create(PosixSignal.SIGTERM, End);

try
{
    await using var cluster = await PrivateCluster.StartAsync(new() { DataDirectory = args[0], Durable = false });
    Console.WriteLine($"ready {(cluster.FoundRunning ? "found" : "started")} {cluster.ConnectionString()}");
    var signal = await ended.Task;

    // The database must outlive the signal: requests in flight still need it.
    await using var source = NpgsqlDataSource.Create(cluster.ConnectionString());
    await using var command = source.CreateCommand("SELECT 'answered after ' || $1");
    command.Parameters.Add(new() { Value = signal });
    Console.WriteLine(await command.ExecuteScalarAsync());
    return 0;
}
catch (PrivateClusterException e)
{
    Console.WriteLine($"refused {e.Message}");
    return 2;
}

void End(PosixSignalContext context)
{
    context.Cancel = true;
    ended.TrySetResult(context.Signal.ToString());
}
