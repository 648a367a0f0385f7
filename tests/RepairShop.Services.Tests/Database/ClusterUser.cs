using System.Collections.Concurrent;
using RepairShop.Testing;
using Xunit;
using Xunit.Sdk;

namespace RepairShop.Services.Tests.Database;

/// <summary>Who runs the program: whoever runs the tests, and, when that is root, an ordinary user as well.</summary>
public sealed class ClusterUser : IXunitSerializable
{
    private static readonly ConcurrentDictionary<string, Lazy<Task<string>>> Prepared = [];

    public ClusterUser()
    {
    }

    private ClusterUser(string name, params string[] stepDown) => (Name, StepDown) = (name, stepDown);

    public string Name { get; private set; } = "";

    /// <summary>What comes before the command line.</summary>
    public IReadOnlyList<string> StepDown { get; private set; } = [];

    public static ClusterUser Ourselves { get; } = new(Environment.UserName);

    public static ClusterUser Ordinary { get; } = Environment.IsPrivilegedProcess
        ? new("nobody", "setpriv", "--reuid=nobody", "--regid=65534", "--clear-groups", "--")
        : Ourselves;

    public static ClusterUser Nameless { get; } = new("54321", "setpriv", "--reuid=54321", "--regid=54321", "--clear-groups", "--");

    public static TheoryData<ClusterUser> Each =>
        Environment.IsPrivilegedProcess ? [Ourselves, Ordinary] : [Ourselves];

    public async Task<string> CreateFolderAsync()
    {
        var folder = TestFolders.Create("cluster");
        await OwnAsync(folder);
        return folder;
    }

    /// <summary>A folder in which a database was made and stopped: a copy takes a fraction of the time.</summary>
    public async Task<string> CreateFolderWithDatabaseAsync()
    {
        var prepared = await Prepared.GetOrAdd(Name, _ => new(PrepareAsync)).Value;
        var folder = await CreateFolderAsync();
        await Machine.RunAsync("cp", "-a", Path.Combine(prepared, "pg"), Path.Combine(prepared, "run"), folder);
        return folder;
    }

    public Task OwnAsync(string path) =>
        StepDown.Count == 0 ? Task.CompletedTask : Machine.RunAsync("chown", "-R", Name, path);

    private async Task<string> PrepareAsync()
    {
        var folder = await CreateFolderAsync();
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        using var host = await ClusterProcess.StartAsync(this, folder);
        await host.StopAsync();
        return folder;
    }

    public override string ToString() => Name;

    public void Serialize(IXunitSerializationInfo info)
    {
        info.AddValue("name", Name);
        info.AddValue("stepDown", StepDown.ToArray());
    }

    public void Deserialize(IXunitSerializationInfo info)
    {
        Name = info.GetValue<string>("name")!;
        StepDown = info.GetValue<string[]>("stepDown")!;
    }
}
