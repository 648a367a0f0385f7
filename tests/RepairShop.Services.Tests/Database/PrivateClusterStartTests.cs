using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace RepairShop.Services.Tests.Database;

/// <summary>What may stand in the way of a start is put right, or said in one sentence.</summary>
public sealed class PrivateClusterStartTests
{
    public static TheoryData<ClusterUser> Users => ClusterUser.Each;

    [Theory, MemberData(nameof(Users))]
    public async Task A_second_program_on_the_same_folder_is_told_so_and_the_first_goes_on(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var first = await ClusterProcess.StartAsync(user, folder);

        using var second = await ClusterProcess.StartAsync(user, folder);

        Assert.Equal(
            $"refused The data folder {folder} is already in use by another running copy of this program; use that one, stop it first, "
            + "or choose another folder with --data.", second.FirstLine);
        await first.SignalAsync("TERM");
        Assert.Equal("answered after SIGTERM", await first.EndAsync());
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task A_first_start_that_was_cut_off_leaves_nothing_half_made(ClusterUser user)
    {
        var folder = await user.CreateFolderAsync();
        using (var cutOff = ClusterProcess.Launch(user, folder))
        {
            await Machine.UntilAsync(() => Directory.GetDirectories(folder, "pg.new-*").Length > 0, "initdb is at work");
            await Machine.RunAsync("kill", "-KILL", "--", $"-{cutOff.Id}");
            await cutOff.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        Assert.Single(Directory.GetDirectories(folder, "pg.new-*"));
        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready started ", next.FirstLine);
        Assert.Empty(Directory.GetDirectories(folder, "pg.new-*"));
        await next.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task A_folder_too_deep_for_a_socket_gets_a_short_one(ClusterUser user)
    {
        var top = await user.CreateFolderAsync();
        var folder = Path.Combine(top, new string('d', 60), new string('e', 60));
        Directory.CreateDirectory(folder);
        await user.OwnAsync(top);

        using var host = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready started Host=/tmp/repairshop-", host.FirstLine);
        var socketFolder = host.ConnectionString.Split(';')[0]["Host=".Length..];
        await host.StopAsync();
        Assert.False(Directory.Exists(socketFolder), "The short folder goes with the server.");
        Directory.Delete(top, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task A_folder_may_have_any_name(ClusterUser user)
    {
        var top = await user.CreateFolderAsync();
        foreach (var name in new[] { "a b", "o'hara, repairs", "\"quoted\"; x=y", "数据 café" })
        {
            var folder = Path.Combine(top, name);
            Directory.CreateDirectory(folder);
            await user.OwnAsync(top);

            using var host = await ClusterProcess.StartAsync(user, folder);

            Assert.StartsWith("ready started ", host.FirstLine);
            await host.StopAsync();
        }

        Directory.Delete(top, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task A_database_of_another_PostgreSQL_version_is_refused_untouched(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        var version = Path.Combine(folder, "pg", "PG_VERSION");
        var ours = (await File.ReadAllTextAsync(version, TestContext.Current.CancellationToken)).Trim();
        await File.WriteAllTextAsync(version, "9.6\n", TestContext.Current.CancellationToken);

        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith($"refused The database in {folder}/pg was made by PostgreSQL 9.6, but this machine has PostgreSQL ", next.FirstLine);
        Assert.Contains(ours, next.FirstLine);
        Assert.EndsWith(
            "; install PostgreSQL 9.6 beside it, or move the folder away and restore your last backup into a new one.", next.FirstLine);
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task The_process_id_in_a_stale_file_may_belong_to_a_stranger_by_now(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        // PostgreSQL ignores strangers it may not signal, so this one runs as the server's own user.
        using var stranger = await StartAsServerAsync(folder, "exec sleep 60");
        await LeaveStaleFilesAsync(folder, stranger.Id);

        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready started ", next.FirstLine);
        await next.StopAsync();
        Assert.False(stranger.HasExited, "The stranger is left alone.");
        stranger.Kill();
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task The_process_id_in_a_stale_file_may_be_a_zombie(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var negligentParent = await StartAsServerAsync(folder, "sleep 0.01 & echo $!; exec sleep 60");
        var zombie = int.Parse((await negligentParent.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken))!, CultureInfo.InvariantCulture);
        await Machine.UntilAsync(() => !Machine.IsAlive(zombie) && Directory.Exists($"/proc/{zombie}"), "a zombie");
        await LeaveStaleFilesAsync(folder, zombie);

        using var next = await ClusterProcess.StartAsync(user, folder);

        Assert.StartsWith("ready started ", next.FirstLine);
        await next.StopAsync();
        negligentParent.Kill();
        Directory.Delete(folder, recursive: true);
    }

    [Theory, MemberData(nameof(Users))]
    public async Task Variables_meant_for_other_PostgreSQL_programs_do_not_lead_astray(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();

        using var host = await ClusterProcess.StartAsync(
            user, folder, ("PGDATA", "/nowhere"), ("PGHOST", "192.0.2.1"), ("PGPORT", "1"), ("PGUSER", "stranger"), ("PGDATABASE", "other"),
            ("PGCLIENTENCODING", "LATIN1"), ("PGSERVICE", "other"), ("PGOPTIONS", "-c nonsense=1"), ("LC_ALL", "xx_XX"), ("LANG", "xx_XX"));

        Assert.StartsWith("ready started ", host.FirstLine);
        await host.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_folder_that_cannot_be_written_to_is_named()
    {
        var folder = await ClusterUser.Ourselves.CreateFolderAsync();
        File.SetUnixFileMode(folder, UnixFileMode.UserRead | UnixFileMode.UserExecute | UnixFileMode.OtherExecute);

        using var host = await ClusterProcess.StartAsync(ClusterUser.Ordinary, folder);

        Assert.StartsWith($"refused The data folder {folder} cannot be made or written to (", host.FirstLine);
        Assert.EndsWith("); correct its rights or choose another folder with --data.", host.FirstLine);
        Directory.Delete(folder);
    }

    private static async Task<Process> StartAsServerAsync(string folder, string script)
    {
        var owner = (await Machine.RunAsync("stat", "-c", "%u", Path.Combine(folder, "pg"))).Trim();
        string[] command = Environment.IsPrivilegedProcess
            ? ["setpriv", $"--reuid={owner}", "--clear-groups", "--", "sh", "-c", script]
            : ["sh", "-c", script];
        return Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true })!;
    }

    private static async Task LeaveStaleFilesAsync(string folder, int id)
    {
        var lines = $"{id}\n{folder}/pg\n1700000000\n5432\n{folder}/run\n\n";
        foreach (var file in new[] { Path.Combine(folder, "pg", "postmaster.pid"), Path.Combine(folder, "run", ".s.PGSQL.5432.lock") })
        {
            await File.WriteAllTextAsync(file, lines, TestContext.Current.CancellationToken);
            if (Environment.IsPrivilegedProcess)
                await Machine.RunAsync("chown", "--reference", Path.Combine(folder, "pg"), file);
        }
    }
}
