using Npgsql;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Database;

/// <summary>Nobody but the program's own user reaches its database.</summary>
public sealed class PrivateClusterAccessTests
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    public static TheoryData<ClusterUser> Users => ClusterUser.Each;

    [Theory, MemberData(nameof(Users))]
    public async Task No_network_port_is_open_and_the_sockets_folder_is_closed_to_others(ClusterUser user)
    {
        var folder = await user.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(user, folder);

        // Line 6 of postmaster.pid is the first TCP address listened on; see storage-lockfile in PostgreSQL's manual.
        Assert.Equal("", File.ReadLines(Path.Combine(folder, "pg", "postmaster.pid")).ElementAt(5));
        const UnixFileMode onlyOwner = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        Assert.Equal(onlyOwner, File.GetUnixFileMode(Path.Combine(folder, "run")));
        Assert.Equal(onlyOwner, File.GetUnixFileMode(Path.Combine(folder, "pg")));
        Assert.Equal(onlyOwner, File.GetUnixFileMode(Path.Combine(folder, "run", ".s.PGSQL.5432")));
        await host.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_user_who_can_open_the_socket_still_needs_the_right_name()
    {
        Assert.SkipUnless(Environment.IsPrivilegedProcess, "Only root passes the first barrier to try the second.");
        var folder = await ClusterUser.Ordinary.CreateFolderWithDatabaseAsync();
        using var host = await ClusterProcess.StartAsync(ClusterUser.Ordinary, folder);

        await using var stranger = new NpgsqlConnection(host.ConnectionString + ";Pooling=false");
        var refused = await Assert.ThrowsAsync<PostgresException>(() => stranger.OpenAsync(Ct));

        Assert.Equal(PostgresErrorCodes.InvalidAuthorizationSpecification, refused.SqlState);
        await host.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Started_by_root_the_server_runs_as_another_user_who_must_be_able_to_pass()
    {
        Assert.SkipUnless(Environment.IsPrivilegedProcess, "Only root hands the server to another user.");
        var closed = TestFolders.Create("closed");
        var folder = Path.Combine(closed, "data");
        File.SetUnixFileMode(closed, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);

        using var host = await ClusterProcess.StartAsync(ClusterUser.Ourselves, folder);

        Assert.Equal(
            $"refused The database server runs as the user 'postgres', who may not enter {closed}; allow it with 'chmod o+x {closed}', or "
            + "choose another data folder with --data, for example /var/lib/repairshop.", host.FirstLine);
        Directory.Delete(closed, recursive: true);
    }

    [Fact]
    public async Task A_user_without_a_name_is_told_that_PostgreSQL_needs_one()
    {
        Assert.SkipUnless(Environment.IsPrivilegedProcess, "Only root can become a user that does not exist.");
        var folder = TestFolders.Create("nameless");
        await ClusterUser.Nameless.OwnAsync(folder);

        using var host = await ClusterProcess.StartAsync(ClusterUser.Nameless, folder);

        Assert.Equal(
            "refused User id 54321 has no name on this system, and PostgreSQL does not run for a nameless user; start the program as a user "
            + "listed in /etc/passwd, or set ConnectionStrings:Shop to a PostgreSQL server that already runs.", host.FirstLine);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task What_was_written_is_there_after_the_next_start()
    {
        var folder = await ClusterUser.Ourselves.CreateFolderAsync();
        using (var first = await ClusterProcess.StartAsync(ClusterUser.Ourselves, folder))
        {
            await ExecuteAsync(first.ConnectionString, "CREATE TABLE note AS SELECT 'größer, 大きい' AS text");
            await first.StopAsync();
        }

        using var second = await ClusterProcess.StartAsync(ClusterUser.Ourselves, folder);

        Assert.Equal("größer, 大きい", await ExecuteAsync(second.ConnectionString, "SELECT text FROM note"));
        Assert.Equal("UTF8", await ExecuteAsync(second.ConnectionString, "SHOW server_encoding"));
        await second.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    private static async Task<object?> ExecuteAsync(string connectionString, string sql)
    {
        await using var source = NpgsqlDataSource.Create(connectionString);
        await using var command = source.CreateCommand(sql);
        return await command.ExecuteScalarAsync(Ct);
    }
}
