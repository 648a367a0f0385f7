using System.Diagnostics;
using System.Globalization;
using RepairShop.Testing;

namespace RepairShop.Services.Tests.Database;

/// <summary>The cluster's host as a process of its own, in a session of its own as under a terminal.</summary>
internal sealed class ClusterProcess : IDisposable
{
    private const string Host = "RepairShop.ClusterHost";
    private static readonly Lazy<string> HostFolder = new(CopyHost);

    private readonly Process process;

    private ClusterProcess(Process process, string firstLine)
    {
        this.process = process;
        FirstLine = firstLine;
    }

    /// <summary>"ready …" or "refused …".</summary>
    public string FirstLine { get; }

    public int Id => process.Id;

    public string ConnectionString => FirstLine.Split(' ', 3)[2];

    public static async Task<ClusterProcess> StartAsync(ClusterUser user, string folder, params (string Name, string Value)[] environment)
    {
        var process = Launch(user, folder, environment);
        var line = await process.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(60));
        return new(process, line ?? await process.StandardError.ReadToEndAsync());
    }

    /// <summary>Does not wait until the database is ready.</summary>
    public static Process Launch(ClusterUser user, string folder, params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo("setsid") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var (name, value) in environment) start.Environment[name] = value;
        start.Environment["HOME"] = "/tmp";
        string[] command = [.. user.StepDown, DotnetPath, Path.Combine(HostFolder.Value, $"{Host}.dll"), folder];
        foreach (var argument in command) start.ArgumentList.Add(argument);
        return Process.Start(start)!;
    }

    /// <summary>The rest of what it said, after it has ended.</summary>
    public async Task<string> EndAsync()
    {
        var rest = await process.StandardOutput.ReadToEndAsync().WaitAsync(TimeSpan.FromSeconds(30));
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(30));
        return rest.Trim();
    }

    /// <summary>As Ctrl+C does: to every process of the terminal's foreground group.</summary>
    public Task SignalGroupAsync(string signal) => Machine.RunAsync("kill", $"-{signal}", "--", $"-{Id}");

    public Task SignalAsync(string signal) => Machine.RunAsync("kill", $"-{signal}", $"{Id}");

    public Task KillWithAsync(params int[] others) =>
        Machine.RunAsync("kill", ["-KILL", .. others.Select(id => id.ToString(CultureInfo.InvariantCulture)), $"{Id}"]);

    public async Task StopAsync()
    {
        await SignalAsync("TERM");
        await EndAsync();
    }

    public void Dispose()
    {
        if (!process.HasExited) process.Kill();
        process.Dispose();
    }

    private static string DotnetPath => Environment.ProcessPath is { } own && Path.GetFileName(own) == "dotnet" ? own : "dotnet";

    /// <summary>The build folder may lie where an ordinary user may not look.</summary>
    private static string CopyHost()
    {
        var folder = TestFolders.Create("host");
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        foreach (var file in Directory.GetFiles(AppContext.BaseDirectory).Where(f => Path.GetExtension(f) is ".dll" or ".json"))
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        return folder;
    }
}
