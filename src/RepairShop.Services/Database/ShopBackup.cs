using System.Diagnostics;
using Npgsql;

namespace RepairShop.Services.Database;

/// <summary>
/// A whole shop in one folder: the database as <c>shop.dump</c>, and <c>data</c>, everything else in the data folder. May be
/// taken while the program runs: files are never changed once written, so those copied after the dump include all it names.
/// </summary>
public static class ShopBackup
{
    private const string DumpName = "shop.dump";
    private const string FilesName = "data";

    /// <summary>Parts of the running server and its own log, useless without it.</summary>
    private static readonly string[] LeftOut = ["pg", "run", "lock", "socket-folder", "logs"];

    public static async Task WriteAsync(string connectionString, string dataDirectory, string target, CancellationToken ct = default)
    {
        if (Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any())
            throw new ShopBackupException($"The folder {target} already holds something; name a new folder for the backup.");

        // Under another name until whole, so that nothing half-written is ever taken for a backup.
        var unfinished = $"{target.TrimEnd('/')}.unfinished-{Guid.NewGuid():N}";
        DataFolder.CreateClosed(unfinished);
        await RunAsync("pg_dump", connectionString, ["--format=custom", $"--file={Path.Combine(unfinished, DumpName)}"], ct);
        Copy(dataDirectory, Path.Combine(unfinished, FilesName), name => LeftOut.Contains(name) || name.StartsWith("pg.new-", StringComparison.Ordinal));
        if (Directory.Exists(target)) Directory.Delete(target);
        Directory.Move(unfinished, target);
    }

    /// <summary>Into an empty database and a data folder without files of a shop; what is there is never overwritten.</summary>
    public static async Task RestoreAsync(string connectionString, string dataDirectory, string source, CancellationToken ct = default)
    {
        var dump = Path.Combine(source, DumpName);
        if (!File.Exists(dump)) throw new ShopBackupException($"The folder {source} is no backup: it has no {DumpName}.");
        await using (var data = NpgsqlDataSource.Create(connectionString))
        await using (var tables = data.CreateCommand("SELECT count(*) FROM information_schema.tables WHERE table_schema = 'public'"))
        {
            if (await tables.ExecuteScalarAsync(ct) is not 0L)
                throw new ShopBackupException($"The shop in {dataDirectory} is not empty; restore into a new folder with --data.");
        }

        await RunAsync("pg_restore", connectionString, ["--single-transaction", "--exit-on-error", "--no-owner", "--no-privileges", dump], ct);
        Copy(Path.Combine(source, FilesName), dataDirectory, _ => false);
    }

    private static void Copy(string from, string to, Func<string, bool> leaveOut)
    {
        Directory.CreateDirectory(to);
        foreach (var entry in new DirectoryInfo(from).EnumerateFileSystemInfos().Where(entry => !leaveOut(entry.Name)))
        {
            var copy = Path.Combine(to, entry.Name);
            if (entry is DirectoryInfo) Copy(entry.FullName, copy, _ => false);
            else File.Copy(entry.FullName, copy, overwrite: true);
        }
    }

    private static async Task RunAsync(string program, string connectionString, IEnumerable<string> arguments, CancellationToken ct)
    {
        var server = new NpgsqlConnectionStringBuilder(connectionString);
        string version;
        await using (var data = NpgsqlDataSource.Create(connectionString))
        await using (var connection = await data.OpenConnectionAsync(ct))
            version = $"{connection.PostgreSqlVersion.Major}";

        var nobodySpecial = new PrivateClusterUser("", "", null, null);
        var folder = (await PrivateClusterPrograms.UsualFoldersAsync(nobodySpecial, ct))
            .Where(folder => File.Exists(Path.Combine(folder, program)))
            .OrderByDescending(folder => folder.Contains($"/{version}/", StringComparison.Ordinal))
            .FirstOrDefault()
            ?? throw new ShopBackupException($"The program {program} was not found; install PostgreSQL {version}'s client programs.");
        var start = new ProcessStartInfo(Path.Combine(folder, program), arguments) { RedirectStandardError = true, RedirectStandardOutput = true };
        // Options of the command line could be read by every user of the machine; the environment can not.
        start.Environment["PGHOST"] = server.Host;
        start.Environment["PGPORT"] = $"{server.Port}";
        start.Environment["PGUSER"] = server.Username;
        start.Environment["PGPASSWORD"] = server.Password;
        start.Environment["PGDATABASE"] = server.Database;
        start.Environment["LC_ALL"] = PrivateClusterUser.Locale;
        if (program == "pg_restore") start.ArgumentList.Insert(0, $"--dbname={server.Database}");
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(ct);
        var error = await process.StandardError.ReadToEndAsync(ct);
        await output;
        await process.WaitForExitAsync(ct);
        if (process.ExitCode != 0)
            throw new ShopBackupException($"{program} failed, put right what it says and try again: {error.Trim()}");
    }
}
