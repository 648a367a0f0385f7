using System.Text.RegularExpressions;

namespace RepairShop.Services.Database;

/// <summary>One installation of PostgreSQL's server programs.</summary>
internal sealed partial record PrivateClusterPrograms(string Folder, string Version)
{
    private static readonly string[] Needed = ["initdb", "pg_ctl", "postgres"];

    public string InitDb => Path.Combine(Folder, "initdb");

    public string PgCtl => Path.Combine(Folder, "pg_ctl");

    /// <summary>
    /// The programs that fit <paramref name="clusterVersion"/>, the content of PG_VERSION; for a database still to be made
    /// (null) the newest. Null <paramref name="folders"/> means the usual places.
    /// </summary>
    public static async Task<PrivateClusterPrograms> FindAsync(
        string? clusterVersion, string pgFolder, IReadOnlyList<string>? folders, PrivateClusterUser user, CancellationToken ct)
    {
        var found = new List<PrivateClusterPrograms>();
        foreach (var folder in folders ?? await UsualFoldersAsync(user, ct))
        {
            if (!Needed.All(name => File.Exists(Path.Combine(folder, name)))) continue;
            var answer = await user.RunAsync(Path.Combine(folder, "postgres"), ["--version"], null, ct);
            if (MajorVersion().Match(answer.Output) is { Success: true } match)
                found.Add(new(folder, match.Groups[1].Value));
        }

        if (found.Count == 0)
            throw new PrivateClusterException(
                "PostgreSQL's server programs (initdb, pg_ctl, postgres) were not found; install them (Debian and Ubuntu: "
                + "apt install postgresql; Fedora: dnf install postgresql-server; macOS: brew install postgresql@17) or set "
                + "ConnectionStrings:Shop to a PostgreSQL server that already runs.");
        if (clusterVersion is null)
            return found.MaxBy(p => decimal.Parse(p.Version, System.Globalization.CultureInfo.InvariantCulture))!;

        return found.Find(p => p.Version == clusterVersion) ?? throw new PrivateClusterException(
            $"The database in {pgFolder} was made by PostgreSQL {clusterVersion}, but this machine has PostgreSQL "
            + $"{string.Join(" and ", found.Select(p => p.Version).Distinct())}; install PostgreSQL {clusterVersion} beside it, "
            + "or move the folder away and restore your last backup into a new one.");
    }

    /// <summary>Distribution folders come first: what lies in PATH may be a wrapper of somebody's own.</summary>
    public static async Task<IReadOnlyList<string>> UsualFoldersAsync(PrivateClusterUser user, CancellationToken ct)
    {
        var folders = new List<string>();
        foreach (var parent in new[] { "/usr/lib/postgresql", "/usr/lib64/pgsql", "/opt/homebrew/opt", "/usr/local/opt" })
            if (Directory.Exists(parent))
                folders.AddRange(Directory.GetDirectories(parent).Select(version => Path.Combine(version, "bin")));
        folders.AddRange(Directory.GetDirectories("/usr", "pgsql-*").Select(version => Path.Combine(version, "bin")));

        var path = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(':', StringSplitOptions.RemoveEmptyEntries);
        if (path.Select(p => Path.Combine(p, "pg_config")).FirstOrDefault(File.Exists) is { } config
            && await user.RunAsync(config, ["--bindir"], null, ct) is { ExitCode: 0 } answer)
            folders.Add(answer.Output.Trim());
        return [.. folders.Concat(path).Distinct()];
    }

    [GeneratedRegex(@"\(PostgreSQL\) (9\.\d+|\d+)")]
    private static partial Regex MajorVersion();
}
