using System.Diagnostics;

namespace RepairShop.Services.Database;

/// <summary>
/// A child that waits for the end of its standard input, which only this program holds open, and then stops the server:
/// however this program ends, kill -9 included, the server ends with it.
/// </summary>
internal sealed class PrivateClusterWatchdog : IDisposable
{
    public const string Mark = "repairshop-watchdog";

    /// <summary>Ctrl+C goes to the whole terminal group, so the child ignores it and waits for our end instead.</summary>
    private const string Script =
        """trap '' INT TERM HUP; exec >>"$3" 2>&1; read -r _; exec "$1" stop -D "$2" -m fast -w -t 300""";

    private readonly Process process;

    private PrivateClusterWatchdog(Process process) => this.process = process;

    public static PrivateClusterWatchdog Start(PrivateClusterUser user, PrivateClusterPrograms programs, PrivateClusterFolders folders) =>
        new(user.Start("/bin/sh", ["-c", Script, Mark, programs.PgCtl, folders.Pg, folders.Log]));

    /// <summary>Stops the server and waits until it has stopped.</summary>
    public async Task StopServerAsync()
    {
        process.StandardInput.Close();
        await process.WaitForExitAsync();
    }

    public void Dispose() => process.Dispose();
}
