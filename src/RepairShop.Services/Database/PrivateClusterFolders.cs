using System.Runtime.Versioning;
using System.Text;

namespace RepairShop.Services.Database;

/// <summary>The places inside one data folder, and the socket's folder, which may have to lie elsewhere.</summary>
internal sealed record PrivateClusterFolders(string Root)
{
    /// <summary>Only a name inside the socket's own folder: no network port is ever opened.</summary>
    public const int Port = 5432;

    public string Pg => Path.Combine(Root, "pg");

    public string Run => Path.Combine(Root, "run");

    public string Lock => Path.Combine(Root, "lock");

    public string Log => Path.Combine(Run, "postgres.log");

    public string PidFile => Path.Combine(Pg, "postmaster.pid");

    public string VersionFile => Path.Combine(Pg, "PG_VERSION");

    private string SocketNote => Path.Combine(Root, "socket-folder");

    public static string Socket(string folder) => Path.Combine(folder, $".s.PGSQL.{Port}");

    /// <summary>The version in PG_VERSION, or null where there is no database yet.</summary>
    public string? ClusterVersion()
    {
        try
        {
            if (File.Exists(VersionFile)) return File.ReadAllText(VersionFile).Trim();
            if (!Directory.Exists(Pg)) return null;
            if (!Directory.EnumerateFileSystemEntries(Pg).Any())
            {
                Directory.Delete(Pg);
                return null;
            }
        }
        catch (UnauthorizedAccessException e)
        {
            throw new PrivateClusterException(
                $"The database folder {Pg} belongs to another user; start the program as that user, or give the folder to this one "
                + $"with: sudo chown -R \"$(id -un)\" '{Root}'", e);
        }

        throw new PrivateClusterException(
            $"The folder {Pg} holds no database (PG_VERSION is missing) but is not empty; move it away, or put the whole folder back "
            + "from a backup.");
    }

    /// <summary>
    /// A socket's path may have 107 bytes (103 on macOS). Where the data folder is too deep, or has a character that
    /// PostgreSQL or the driver would read as a list, a short folder of our own in /tmp stands in; a note remembers it.
    /// </summary>
    [UnsupportedOSPlatform("windows")]
    public async Task<string> SocketFolderAsync(PrivateClusterUser user, CancellationToken ct)
    {
        var longest = OperatingSystem.IsMacOS() ? 103 : 107;
        if (Encoding.UTF8.GetByteCount(Socket(Run)) <= longest && Run.IndexOfAny([',', ':', '"', '\'', '\\', '\n', ';', '=']) < 0)
            return Run;

        RemoveShortFolder();
        var made = Directory.CreateTempSubdirectory("repairshop-").FullName;
        if (Encoding.UTF8.GetByteCount(Socket(made)) > longest)
        {
            Directory.Delete(made);
            made = $"/tmp/repairshop-{Guid.NewGuid():N}";
            Directory.CreateDirectory(made, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        await File.WriteAllTextAsync(SocketNote, made, ct);
        await user.TakeOverAsync(made, ct);
        return made;
    }

    public void RemoveShortFolder()
    {
        if (!File.Exists(SocketNote)) return;
        var folder = File.ReadAllText(SocketNote);
        if (Path.GetFileName(folder).StartsWith("repairshop-", StringComparison.Ordinal) && Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
        File.Delete(SocketNote);
    }

    /// <summary>The fifth line of postmaster.pid names the socket's folder of the server that wrote it.</summary>
    public (int Pid, string SocketFolder)? ReadPidFile()
    {
        if (!File.Exists(PidFile)) return null;
        var lines = File.ReadAllLines(PidFile);
        return lines.Length > 4 && int.TryParse(lines[0], out var pid) ? (pid, lines[4]) : null;
    }
}
