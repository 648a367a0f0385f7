using Npgsql;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Database;

public sealed class PostgresServerTests(PostgresServer server)
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Sixteen_tests_at_once_each_get_a_database_of_their_own()
    {
        var rows = await Task.WhenAll(Enumerable.Range(0, 16).Select(async number =>
        {
            await using var database = await server.CreateDatabaseAsync(Ct);
            await ExecuteAsync(database, "CREATE TABLE only_here (number int)");
            await ExecuteAsync(database, $"INSERT INTO only_here VALUES ({number})");
            return (await ScalarAsync(database, "SELECT sum(number) FROM only_here"), number);
        }));

        Assert.All(rows, row => Assert.Equal((long)row.number, row.Item1));
    }

    [Fact]
    public async Task A_database_is_gone_when_its_test_has_ended()
    {
        await using var watching = await server.CreateEmptyDatabaseAsync(Ct);
        string name;
        await using (var database = await server.CreateEmptyDatabaseAsync(Ct))
        {
            name = new NpgsqlConnectionStringBuilder(database.ConnectionString).Database!;
            Assert.Equal(1L, await ScalarAsync(watching, $"SELECT count(*) FROM pg_database WHERE datname = '{name}'"));
        }

        Assert.Equal(0L, await ScalarAsync(watching, $"SELECT count(*) FROM pg_database WHERE datname = '{name}'"));
    }

    private static async Task ExecuteAsync(TestDatabase database, string sql)
    {
        await using var source = NpgsqlDataSource.Create(database.ConnectionString);
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync(Ct);
    }

    private static async Task<object?> ScalarAsync(TestDatabase database, string sql)
    {
        await using var source = NpgsqlDataSource.Create(database.ConnectionString);
        await using var command = source.CreateCommand(sql);
        return await command.ExecuteScalarAsync(Ct);
    }
}
