using RepairShop.Services.Database;
using Xunit;

namespace RepairShop.Services.Tests.Database;

/// <summary>However the program ends, its database server ends with it, or is found again.</summary>
public sealed class PrivateClusterEndTests
{
    public static TheoryData<ClusterUser> Users => ClusterUser.Each;

    [Theory, MemberData(nameof(Users))]
    public async Task Ctrl_C_reaches_the_program_first_and_then_stops_the_server(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(user, folder);
        var server = Machine.ServerId(folder);

        await host.SignalGroupAsync("INT");

        Assert.Equal("answered after SIGINT", await host.EndAsync());
        Assert.False(Machine.IsAlive(server));
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task Terminating_the_program_stops_the_server(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(user, folder);
        var server = Machine.ServerId(folder);

        await host.SignalAsync("TERM");

        Assert.Equal("answered after SIGTERM", await host.EndAsync());
        Assert.False(Machine.IsAlive(server));
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task Killing_the_program_stops_the_server(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(user, folder);
        var server = Machine.ServerId(folder);

        await host.SignalAsync("KILL");

        await Machine.UntilAsync(() => !Machine.IsAlive(server), "the server is down");
        Assert.False(File.Exists(Path.Combine(folder, "pg", "postmaster.pid")), "The server was stopped in good order.");
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task A_start_right_after_a_kill_gets_a_server_that_stays(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using (var killed = await ClusterProcess.StartAsync(user, folder)) await killed.SignalAsync("KILL");

        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready started ", next.FirstLine);
        await next.SignalAsync("TERM");
        Assert.Equal("answered after SIGTERM", await next.EndAsync());
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task Killing_the_program_and_its_watchdog_leaves_a_server_that_the_next_start_finds(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var killed = await ClusterProcess.StartAsync(user, folder);
        var server = Machine.ServerId(folder);
        await killed.KillWithAsync(Machine.WatchdogId(folder));
        await killed.EndAsync();
        Assert.True(Machine.IsAlive(server));

        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready found ", next.FirstLine);
        Assert.Equal(server, Machine.ServerId(folder));
        await next.StopAsync();
        Assert.False(Machine.IsAlive(server));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_command_beside_the_program_joins_its_server_and_finds_none_when_it_has_stopped()
    {
        var folder = await ClusterUser.Ourselves.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(ClusterUser.Ourselves, folder);

        Assert.Equal(host.ConnectionString, await PrivateCluster.FindRunningAsync(folder, TestContext.Current.CancellationToken));
        await host.StopAsync();
        Assert.Null(await PrivateCluster.FindRunningAsync(folder, TestContext.Current.CancellationToken));
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task A_server_whose_watchdog_was_killed_is_still_stopped_by_the_program(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(user, folder);
        var server = Machine.ServerId(folder);
        await Machine.RunAsync("kill", "-KILL", $"{Machine.WatchdogId(folder)}");

        await host.StopAsync();

        Assert.False(Machine.IsAlive(server));
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task Killing_program_watchdog_and_server_loses_nothing_but_time(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using (var killed = await ClusterProcess.StartAsync(user, folder))
            await killed.KillWithAsync(Machine.WatchdogId(folder), Machine.ServerId(folder));

        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready started ", next.FirstLine);
        await next.StopAsync();
        Directory.Delete(folder, recursive: true);
    }
}
