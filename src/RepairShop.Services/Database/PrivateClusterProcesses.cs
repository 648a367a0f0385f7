namespace RepairShop.Services.Database;

/// <summary>
/// Which processes belong to one database folder. A process id alone proves nothing: it may be a zombie, or have been
/// given to another program since.
/// </summary>
internal static class PrivateClusterProcesses
{
    /// <summary>Server processes, the first of the server as well as those an abrupt end may have left behind.</summary>
    public static async Task<IReadOnlyList<int>> ServersAsync(string pgFolder, CancellationToken ct)
    {
        if (!OperatingSystem.IsLinux()) return await FromPsAsync(["postgres", pgFolder], ct);
        var real = RealPath(pgFolder);
        return [.. LinuxProcesses().Where(pid => IsServer(pid, real))];
    }

    public static async Task<IReadOnlyList<int>> WatchdogsAsync(string pgFolder, CancellationToken ct)
    {
        if (!OperatingSystem.IsLinux()) return await FromPsAsync([PrivateClusterWatchdog.Mark, pgFolder], ct);
        return [.. LinuxProcesses().Where(pid => IsWatchdog(pid, pgFolder))];
    }

    private static IEnumerable<int> LinuxProcesses() =>
        Directory.EnumerateDirectories("/proc")
            .Select(path => int.TryParse(Path.GetFileName(path), out var pid) ? pid : 0)
            .Where(pid => pid > 0);

    /// <summary>PostgreSQL's processes all work inside their data folder; a zombie has no working folder any more.</summary>
    private static bool IsServer(int pid, string realPgFolder) =>
        Read(() => new FileInfo($"/proc/{pid}/cwd").LinkTarget) == realPgFolder
        && Read(() => File.ReadAllText($"/proc/{pid}/comm"))?.StartsWith("post", StringComparison.Ordinal) == true;

    /// <summary>The same process first waits as a shell and then, under the same id, stops the server.</summary>
    private static bool IsWatchdog(int pid, string pgFolder)
    {
        var arguments = Read(() => File.ReadAllText($"/proc/{pid}/cmdline"))?.Split('\0');
        return arguments is not null && arguments.Contains(pgFolder)
            && (arguments.Contains(PrivateClusterWatchdog.Mark) || (arguments.Contains("stop") && arguments[0].EndsWith("pg_ctl", StringComparison.Ordinal)));
    }

    private static string RealPath(string path)
    {
        var real = "/";
        foreach (var part in path.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            real = Path.Combine(real, part);
            if (new DirectoryInfo(real).ResolveLinkTarget(returnFinalTarget: true) is { } target) real = RealPath(target.FullName);
        }

        return real;
    }

    /// <summary>A process that ended while we looked, or is none of our business, is not one of ours.</summary>
    private static string? Read(Func<string?> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static async Task<IReadOnlyList<int>> FromPsAsync(string[] words, CancellationToken ct)
    {
        var answer = await new PrivateClusterUser("", "", null, null).RunAsync("ps", ["-axo", "pid=,stat=,command="], null, ct);
        return [.. answer.Output.Split('\n')
            .Select(line => line.Split(' ', 3, StringSplitOptions.RemoveEmptyEntries))
            .Where(parts => parts.Length == 3 && parts[1][0] != 'Z' && Array.TrueForAll(words, parts[2].Contains))
            .Select(parts => int.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture))];
    }
}
