using System.Runtime.Versioning;
using Npgsql;

namespace RepairShop.Services.Database;

/// <summary>
/// A PostgreSQL server of the program's own, in its data folder, reachable through a socket that only this user can
/// open. It is made on the first start and ends with this object, or with the process, whatever ends it.
/// </summary>
public sealed class PrivateCluster : IAsyncDisposable
{
    public const string ShopDatabaseName = "shop";
    private const string Role = "shop";
    private const int PatienceSeconds = 300;

    private readonly PrivateClusterFolders folders;
    private readonly PrivateClusterUser user;
    private readonly PrivateClusterOptions options;
    private readonly FileStream instanceLock;
    private PrivateClusterPrograms programs = null!;
    private PrivateClusterWatchdog? watchdog;
    private string socketFolder = "";

    private PrivateCluster(PrivateClusterFolders folders, PrivateClusterUser user, PrivateClusterOptions options, FileStream instanceLock)
    {
        this.folders = folders;
        this.user = user;
        this.options = options;
        this.instanceLock = instanceLock;
    }

    /// <summary>True when a server left running by an abrupt end was found and taken over.</summary>
    public bool FoundRunning { get; private set; }

    public static async Task<PrivateCluster> StartAsync(PrivateClusterOptions options, CancellationToken ct = default)
    {
        if (OperatingSystem.IsWindows())
            throw new PrivateClusterException(
                "On Windows the program does not run a database of its own; set ConnectionStrings:Shop to a PostgreSQL server, or use "
                + "Docker Compose (docker compose up).");

        var folders = new PrivateClusterFolders(Path.GetFullPath(options.DataDirectory).TrimEnd('/'));
        var user = await PrivateClusterUser.FindAsync(folders.Pg, ct);
        var cluster = new PrivateCluster(folders, user, options, PrivateClusterLock.Take(folders));
        try
        {
            await cluster.PrepareAsync(ct);
            await cluster.RunServerAsync(ct);
            await cluster.EnsureShopDatabaseAsync(ct);
            return cluster;
        }
        catch
        {
            await cluster.DisposeAsync();
            throw;
        }
    }

    public string ConnectionString(string database = ShopDatabaseName) => ConnectionString(socketFolder, database);

    /// <summary>How to reach the server that another program runs in this folder, or null where none runs.</summary>
    public static async Task<string?> FindRunningAsync(string dataDirectory, CancellationToken ct = default)
    {
        var folders = new PrivateClusterFolders(Path.GetFullPath(dataDirectory).TrimEnd('/'));
        if (folders.ReadPidFile() is not { } running) return null;
        return (await PrivateClusterProcesses.WatchdogsAsync(folders.Pg, ct)).Count > 0
            && (await PrivateClusterProcesses.ServersAsync(folders.Pg, ct)).Contains(running.Pid)
            ? ConnectionString(running.SocketFolder, ShopDatabaseName)
            : null;
    }

    internal static string ConnectionString(string socketFolder, string database) => new NpgsqlConnectionStringBuilder
    {
        Host = socketFolder,
        Port = PrivateClusterFolders.Port,
        Username = Role,
        Database = database,
        // Said in full, because the driver too would else follow variables meant for other programs.
        Timezone = "UTC",
        Encoding = "UTF8",
        ClientEncoding = "UTF8",
        Options = "-c datestyle=ISO",
        SslMode = SslMode.Disable,
        GssEncryptionMode = GssEncryptionMode.Disable,
        // The server takes 100; a backup and a look by hand must still get in.
        MaxPoolSize = 80,
    }.ConnectionString;

    public async ValueTask DisposeAsync()
    {
        if (watchdog is not null)
        {
            await watchdog.StopServerAsync();
            watchdog.Dispose();
            watchdog = null;
            // The child may have been killed before us.
            if ((await PrivateClusterProcesses.ServersAsync(folders.Pg, CancellationToken.None)).Count > 0)
                await user.RunAsync(programs.PgCtl, ["stop", "-D", folders.Pg, "-m", "fast", "-w", "-t", $"{PatienceSeconds}"], null, CancellationToken.None);
            folders.RemoveShortFolder();
        }

        await instanceLock.DisposeAsync();
    }

    [UnsupportedOSPlatform("windows")]
    private async Task PrepareAsync(CancellationToken ct)
    {
        await EnsureEnterableAsync(ct);
        if (user.Uid is not null && Directory.Exists(folders.Pg)) await user.TakeOverAsync(folders.Pg, ct);
        Directory.CreateDirectory(folders.Run, PrivateClusterLock.OwnerOnly);
        await user.TakeOverAsync(folders.Run, ct);

        // A server being stopped by the last program's watchdog must be let go of before anyone looks at its files.
        await UntilGoneAsync(PrivateClusterProcesses.WatchdogsAsync, "The last database server is still stopping", ct);

        var version = folders.ClusterVersion();
        programs = await PrivateClusterPrograms.FindAsync(version, folders.Pg, options.ProgramFolders, user, ct);
        if (version is null) await InitialiseAsync(ct);
    }

    /// <summary>Root may enter everywhere, the user the server runs as may not.</summary>
    private async Task EnsureEnterableAsync(CancellationToken ct)
    {
        var ancestors = new List<string>();
        for (var folder = folders.Root; folder is not null; folder = Path.GetDirectoryName(folder)) ancestors.Insert(0, folder);
        var answer = await user.RunAsync(
            "/bin/sh", ["-c", """for f in "$@"; do test -x "$f" || { printf %s "$f"; exit 1; }; done""", "sh", .. ancestors], null, ct);
        if (answer.ExitCode != 0)
            throw new PrivateClusterException(
                $"The database server runs as the user '{user.ServerName}', who may not enter {answer.Output}; allow it with "
                + $"'chmod o+x {answer.Output}', or choose another data folder with --data, for example /var/lib/repairshop.");
    }

    /// <summary>Made under another name and renamed when whole, so that an interrupted start leaves nothing half-made.</summary>
    [UnsupportedOSPlatform("windows")]
    private async Task InitialiseAsync(CancellationToken ct)
    {
        foreach (var leftOver in Directory.GetDirectories(folders.Root, "pg.new-*"))
            await user.Ourselves.RunAsync("rm", ["-rf", "--", leftOver], null, ct);

        var made = $"{folders.Pg}.new-{Guid.NewGuid():N}";
        Directory.CreateDirectory(made, PrivateClusterLock.OwnerOnly);
        await user.TakeOverAsync(made, ct);
        string[] care = options.Durable ? ["--data-checksums"] : ["--no-sync"];
        var answer = await user.RunAsync(
            programs.InitDb,
            ["-D", made, $"--username={Role}", "--auth=peer", "--encoding=UTF8", $"--locale={PrivateClusterUser.Locale}", .. care],
            null, ct);
        if (answer.ExitCode != 0)
            throw new PrivateClusterException(
                $"PostgreSQL could not make a database in {folders.Root}; put right what it says and start again: {answer.Output.Trim()}");
        Directory.Move(made, folders.Pg);
    }

    [UnsupportedOSPlatform("windows")]
    private async Task RunServerAsync(CancellationToken ct)
    {
        if (await TakeOverRunningAsync(ct)) return;
        await UntilGoneAsync(PrivateClusterProcesses.ServersAsync, "Parts of the last database server are still at work", ct);
        RemoveStaleFiles();
        socketFolder = await folders.SocketFolderAsync(user, ct);
        await WriteSettingsAsync(ct);
        watchdog = PrivateClusterWatchdog.Start(user, programs, folders);
        // pg_ctl puts -D and -l into a shell command with no more than double quotes around them; a folder may have any name.
        var answer = await user.RunAsync(
            "/bin/sh",
            ["-c", """PGDATA=$2 exec "$1" start -w -t "$4" >>"$3" 2>&1""", "sh", programs.PgCtl, folders.Pg, folders.Log, $"{PatienceSeconds}"],
            null, ct);
        if (answer.ExitCode != 0)
            throw new PrivateClusterException(
                $"The database server did not start; its own words are at the end of {folders.Log}: "
                + string.Join(" ", File.ReadLines(folders.Log).TakeLast(5)));
    }

    private async Task<bool> TakeOverRunningAsync(CancellationToken ct)
    {
        if (folders.ReadPidFile() is not { } running) return false;
        if (!(await PrivateClusterProcesses.ServersAsync(folders.Pg, ct)).Contains(running.Pid)) return false;
        try
        {
            await using var probe = new NpgsqlConnection(ConnectionString(running.SocketFolder, "postgres") + ";Pooling=false;Timeout=5");
            await probe.OpenAsync(ct);
        }
        catch (NpgsqlException)
        {
            // Half-way down, or made for another user: a fresh start puts both right.
            await user.RunAsync(programs.PgCtl, ["stop", "-D", folders.Pg, "-m", "fast", "-w", "-t", $"{PatienceSeconds}"], null, ct);
            return false;
        }

        socketFolder = running.SocketFolder;
        watchdog = PrivateClusterWatchdog.Start(user, programs, folders);
        return FoundRunning = true;
    }

    /// <summary>
    /// PostgreSQL asks only whether the process id in these files exists. No process works in this folder any more, so
    /// whatever now has that id, a zombie or a stranger, must not stand in the way.
    /// </summary>
    private void RemoveStaleFiles()
    {
        File.Delete(folders.PidFile);
        File.Delete(PrivateClusterFolders.Socket(folders.Run));
        File.Delete(PrivateClusterFolders.Socket(folders.Run) + ".lock");
    }

    private async Task WriteSettingsAsync(CancellationToken ct)
    {
        var names = new[] { user.OwnName, user.ServerName }.Distinct();
        var files = PrivateClusterSettings.Files(Role, names, socketFolder, options.Durable);
        foreach (var (name, content) in files)
        {
            // Written as the server's user: root must not write through a link that user may have laid.
            var answer = await user.RunAsync("/bin/sh", ["-c", "umask 077; cat >\"$1\"", "sh", Path.Combine(folders.Pg, name)], content, ct);
            if (answer.ExitCode != 0)
                throw new PrivateClusterException($"The database's settings cannot be written, make room or correct the rights: {answer.Output.Trim()}");
        }
    }

    private async Task UntilGoneAsync(
        Func<string, CancellationToken, Task<IReadOnlyList<int>>> find, string sentence, CancellationToken ct)
    {
        var deadline = Environment.TickCount64 + (PatienceSeconds * 1000L);
        while (await find(folders.Pg, ct) is { Count: > 0 } left)
        {
            if (Environment.TickCount64 > deadline)
                throw new PrivateClusterException($"{sentence} (process {string.Join(", ", left)}) in {folders.Pg}; wait, or restart the machine.");
            await Task.Delay(20, ct);
        }
    }

    private async Task EnsureShopDatabaseAsync(CancellationToken ct)
    {
        await using var connection = new NpgsqlConnection(ConnectionString("postgres") + ";Pooling=false");
        await connection.OpenAsync(ct);
        await using var exists = new NpgsqlCommand($"SELECT 1 FROM pg_database WHERE datname = '{ShopDatabaseName}'", connection);
        if (await exists.ExecuteScalarAsync(ct) is not null) return;
        await using var create = new NpgsqlCommand($"CREATE DATABASE {ShopDatabaseName} TEMPLATE template0 ENCODING 'UTF8'", connection);
        await create.ExecuteNonQueryAsync(ct);
    }
}
