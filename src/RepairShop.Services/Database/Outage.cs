using System.Net.Sockets;
using Npgsql;

namespace RepairShop.Services.Database;

/// <summary>What is no fault of the program: a database that is away, a disk that is full. It passes, and nothing was saved.</summary>
public static class Outage
{
    private const int NoSpaceLeft = 28; // ENOSPC; the quota's own code is EDQUOT
    private const int OverQuota = 122;

    /// <summary>The database can't be reached, is starting or stopping, or has cut the connection.</summary>
    public static bool IsDatabaseAway(Exception? exception) => Chain(exception).Any(one => one switch
    {
        // Class 08: connection; 57P: shutdown and start; 53300: no connection left.
        PostgresException refused => refused.SqlState.StartsWith("08", StringComparison.Ordinal)
            || refused.SqlState.StartsWith("57P", StringComparison.Ordinal) || refused.SqlState == PostgresErrorCodes.TooManyConnections,
        NpgsqlException { InnerException: SocketException or IOException or TimeoutException } => true,
        _ => false,
    });

    /// <summary>The disk under the files or under the database takes no more.</summary>
    public static bool IsDiskFull(Exception? exception) => Chain(exception).Any(one => one switch
    {
        PostgresException refused => refused.SqlState == PostgresErrorCodes.DiskFull,
        IOException failed => (failed.HResult & 0xFFFF) is NoSpaceLeft or OverQuota,
        _ => false,
    });

    private static IEnumerable<Exception> Chain(Exception? exception)
    {
        for (var one = exception; one is not null; one = one.InnerException)
            yield return one;
    }
}
