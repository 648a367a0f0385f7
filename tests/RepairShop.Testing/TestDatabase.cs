using Npgsql;

namespace RepairShop.Testing;

/// <summary>One test's own database.</summary>
public sealed class TestDatabase(string connectionString, Func<Task> drop) : IAsyncDisposable
{
    public string ConnectionString { get; } = connectionString;

    public async ValueTask DisposeAsync()
    {
        await using (var connection = new NpgsqlConnection(ConnectionString)) NpgsqlConnection.ClearPool(connection);
        await drop();
    }
}
