using System.Text;

namespace RepairShop.Services.Database;

/// <summary>The three settings files, written anew at every start because user and folder may have changed.</summary>
internal static class PrivateClusterSettings
{
    public static IEnumerable<(string Name, string Content)> Files(
        string role, IEnumerable<string> systemUsers, string socketFolder, bool durable)
    {
        yield return ("pg_hba.conf", $"local all {role} peer map=shop\n");

        var map = new StringBuilder();
        foreach (var name in systemUsers) map.Append("shop \"").Append(name).Append("\" ").Append(role).Append('\n');
        yield return ("pg_ident.conf", map.ToString());

        var lines = new List<string>
        {
            "listen_addresses = ''",
            $"port = {PrivateClusterFolders.Port}",
            $"unix_socket_directories = '\"{socketFolder}\"'",
            "unix_socket_permissions = 0700",
            "timezone = 'UTC'",
            "log_timezone = 'UTC'",
            "shared_buffers = 128MB",
        };
        lines.AddRange(durable
            ? ["max_connections = 100"]
            : ["max_connections = 300", "fsync = off", "synchronous_commit = off", "full_page_writes = off"]);
        yield return ("postgresql.conf", string.Join('\n', lines) + "\n");
    }
}
