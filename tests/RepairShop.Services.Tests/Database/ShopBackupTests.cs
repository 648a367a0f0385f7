using Npgsql;
using RepairShop.Services.Database;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Database;

public sealed class ShopBackupTests(PostgresServer server) : IDisposable
{
    private readonly string folder = TestFolders.Create("backup");

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private string Data => Path.Combine(folder, "data");

    private string Target => Path.Combine(folder, "backup");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_backup_restored_elsewhere_holds_the_same_rows_rules_and_files()
    {
        await using var shop = await server.CreateDatabaseAsync(Ct);
        await ExecuteAsync(shop.ConnectionString, "CREATE TABLE note AS SELECT 'größer, 大きい' AS text");
        WriteFile("files/ab/cd/abcd", "a photo");
        WriteFile("pg/PG_VERSION", "15");
        WriteFile("logs/today.log", "left out");

        await ShopBackup.WriteAsync(shop.ConnectionString, Data, Target, Ct);
        await using var fresh = await server.CreateEmptyDatabaseAsync(Ct);
        var elsewhere = Path.Combine(folder, "elsewhere");
        await ShopBackup.RestoreAsync(fresh.ConnectionString, elsewhere, Target, Ct);

        const string shape = """
            SELECT string_agg(line, E'\n' ORDER BY line) FROM (
              SELECT 'trigger ' || tgrelid::regclass || ' ' || pg_get_triggerdef(oid) AS line FROM pg_trigger WHERE NOT tgisinternal
              UNION ALL SELECT 'index ' || tablename || '.' || indexname FROM pg_indexes WHERE schemaname = 'public'
              UNION ALL SELECT 'column ' || table_name || '.' || column_name || ' ' || data_type FROM information_schema.columns WHERE table_schema = 'public') AS t
            """;
        Assert.Equal(await ExecuteAsync(shop.ConnectionString, shape), await ExecuteAsync(fresh.ConnectionString, shape));
        Assert.Equal("größer, 大きい", await ExecuteAsync(fresh.ConnectionString, "SELECT text FROM note"));
        Assert.Equal("a photo", await File.ReadAllTextAsync(Path.Combine(elsewhere, "files/ab/cd/abcd"), Ct));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(Target));
        Assert.Equal(["files"], Directory.GetFileSystemEntries(elsewhere).Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_backup_never_overwrites_another()
    {
        await using var shop = await server.CreateEmptyDatabaseAsync(Ct);
        WriteFile("../backup/shop.dump", "the last one");

        var refused = await Assert.ThrowsAsync<ShopBackupException>(() => ShopBackup.WriteAsync(shop.ConnectionString, Data, Target, Ct));

        Assert.Equal($"The folder {Target} already holds something; name a new folder for the backup.", refused.Message);
    }

    [Fact]
    public async Task A_backup_is_not_restored_over_a_shop()
    {
        await using var shop = await server.CreateDatabaseAsync(Ct);
        WriteFile("files/ab/cd/abcd", "a photo");
        await ShopBackup.WriteAsync(shop.ConnectionString, Data, Target, Ct);

        var refused = await Assert.ThrowsAsync<ShopBackupException>(() => ShopBackup.RestoreAsync(shop.ConnectionString, Data, Target, Ct));

        Assert.Equal($"The shop in {Data} is not empty; restore into a new folder with --data.", refused.Message);
    }

    [Fact]
    public async Task A_folder_that_is_no_backup_is_named()
    {
        await using var shop = await server.CreateEmptyDatabaseAsync(Ct);

        var refused = await Assert.ThrowsAsync<ShopBackupException>(() => ShopBackup.RestoreAsync(shop.ConnectionString, Data, folder, Ct));

        Assert.Equal($"The folder {folder} is no backup: it has no shop.dump.", refused.Message);
    }

    private void WriteFile(string name, string content)
    {
        var path = Path.GetFullPath(Path.Combine(Data, name));
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, content);
    }

    private static async Task<object?> ExecuteAsync(string connectionString, string sql)
    {
        await using var source = NpgsqlDataSource.Create(connectionString);
        await using var command = source.CreateCommand(sql);
        return await command.ExecuteScalarAsync(Ct);
    }
}
