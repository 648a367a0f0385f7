using System.ComponentModel;
using System.Diagnostics;

namespace RepairShop.Services.Database;

internal sealed record CommandResult(int ExitCode, string Output);

/// <summary>
/// The operating-system user the database server runs as: ourselves, or, since PostgreSQL refuses to run as root,
/// the owner of the database folder, else <c>postgres</c>, else <c>nobody</c>.
/// </summary>
internal sealed record PrivateClusterUser(string OwnName, string ServerName, string? Uid, string? Gid)
{
    private const string SetPriv = "/usr/bin/setpriv";

    public PrivateClusterUser Ourselves => this with { Uid = null };

    public static async Task<PrivateClusterUser> FindAsync(string pgFolder, CancellationToken ct)
    {
        var nobodySpecial = new PrivateClusterUser("", "", null, null);
        var own = await nobodySpecial.RunAsync("id", ["-un"], null, ct);
        if (own.ExitCode != 0)
        {
            var uid = (await nobodySpecial.RunAsync("id", ["-u"], null, ct)).Output.Trim();
            throw new PrivateClusterException(
                $"User id {uid} has no name on this system, and PostgreSQL does not run for a nameless user; start the program as a "
                + "user listed in /etc/passwd, or set ConnectionStrings:Shop to a PostgreSQL server that already runs.");
        }

        var name = own.Output.Trim();
        if (!Environment.IsPrivilegedProcess) return new(name, name, null, null);
        if (!File.Exists(SetPriv))
            throw new PrivateClusterException(
                $"PostgreSQL does not run as root, and {SetPriv} to step down with is missing; install util-linux or start the "
                + "program as an ordinary user.");

        var accounts = File.ReadLines("/etc/passwd").Select(line => line.Split(':')).Where(parts => parts.Length > 3).ToList();
        var owner = Directory.Exists(pgFolder)
            ? (await nobodySpecial.RunAsync("stat", ["-c", "%u", pgFolder], null, ct)).Output.Trim()
            : "0";
        var account = (owner == "0" ? null : accounts.Find(parts => parts[2] == owner))
            ?? accounts.Find(parts => parts[0] == "postgres")
            ?? accounts.Find(parts => parts[0] == "nobody")
            ?? throw new PrivateClusterException(
                "PostgreSQL does not run as root, and this system has neither a user 'postgres' nor 'nobody' to run it as; start the "
                + "program as an ordinary user.");
        return new(name, account[0], account[2], account[3]);
    }

    /// <summary>Takes a folder over for the server; nothing to do where it is our own.</summary>
    public async Task TakeOverAsync(string path, CancellationToken ct)
    {
        if (Uid is null) return;
        var answer = await Ourselves.RunAsync("chown", ["-hR", $"{Uid}:{Gid}", "--", path], null, ct);
        if (answer.ExitCode != 0)
            throw new PrivateClusterException($"The folder {path} cannot be given to the user '{ServerName}': {answer.Output.Trim()}");
    }

    public async Task<CommandResult> RunAsync(string program, IEnumerable<string> arguments, string? input, CancellationToken ct)
    {
        using var process = Start(program, arguments);
        try
        {
            if (input is not null) await process.StandardInput.WriteAsync(input.AsMemory(), ct);
            process.StandardInput.Close();
            var error = process.StandardError.ReadToEndAsync(ct);
            var output = await process.StandardOutput.ReadToEndAsync(ct);
            output += await error;
            await process.WaitForExitAsync(ct);
            return new(process.ExitCode, output);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }
    }

    public Process Start(string program, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo
        {
            FileName = Uid is null ? program : SetPriv,
            // The server must not hold on to, or fail to read, the folder the program was started from.
            WorkingDirectory = "/",
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var name in start.Environment.Keys.Where(name => name.StartsWith("PG", StringComparison.Ordinal)).ToList())
            start.Environment.Remove(name);
        start.Environment["LC_ALL"] = Locale;
        string[] stepDown = Uid is null
            ? []
            : [$"--reuid={Uid}", $"--regid={Gid}", "--clear-groups", "--no-new-privs", "--", program];
        foreach (var argument in stepDown.Concat(arguments)) start.ArgumentList.Add(argument);
        try
        {
            return Process.Start(start)!;
        }
        catch (Win32Exception e)
        {
            throw new PrivateClusterException($"The program {start.FileName} cannot be started ({e.Message}); install it or set PATH.", e);
        }
    }

    /// <summary>macOS has no C.UTF-8 before version 15.</summary>
    public static string Locale => OperatingSystem.IsMacOS() ? "en_US.UTF-8" : "C.UTF-8";
}
