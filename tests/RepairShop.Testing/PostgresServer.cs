using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using Testcontainers.PostgreSql;

namespace RepairShop.Testing;

/// <summary>
/// The PostgreSQL server of one test run, started when the first test asks for a database: the one named by
/// <c>REPAIRSHOP_TEST_POSTGRES</c>, else a container where a Docker engine answers, else a private cluster made by the
/// product's own code. Use as <c>[assembly: AssemblyFixture(typeof(PostgresServer))]</c>.
/// </summary>
public sealed class PostgresServer : IAsyncDisposable
{
    /// <summary>The same tag as in docker-compose.yml, kept so by a test.</summary>
    public const string Image = "postgres:17.6-bookworm";

    public const string Variable = "REPAIRSHOP_TEST_POSTGRES";

    private readonly SemaphoreSlim gate = new(1, 1);
    private readonly string template = $"template_{Guid.NewGuid():N}";
    private PostgreSqlContainer? container;
    private PrivateCluster? cluster;
    private string? folder;
    private string? admin;

    /// <summary>Which of the three it is, in words.</summary>
    public string Kind { get; private set; } = "not started";

    /// <summary>A fresh, migrated database of one test's own; dropped when disposed. Safe to call in parallel.</summary>
    public async Task<TestDatabase> CreateDatabaseAsync(CancellationToken ct = default)
    {
        await EnsureStartedAsync(ct);
        return await CopyAsync(template, ct);
    }

    /// <summary>A database without tables, for tests of the migrations themselves.</summary>
    public async Task<TestDatabase> CreateEmptyDatabaseAsync(CancellationToken ct = default)
    {
        await EnsureStartedAsync(ct);
        return await CopyAsync("template0", ct);
    }

    public async ValueTask DisposeAsync()
    {
        if (admin is not null && cluster is null && container is null)
            await ExecuteAsync($"DROP DATABASE IF EXISTS {template} WITH (FORCE)", CancellationToken.None);
        if (container is not null) await container.DisposeAsync();
        if (cluster is not null) await cluster.DisposeAsync();
        if (folder is not null) Directory.Delete(folder, recursive: true);
        gate.Dispose();
    }

    private async Task EnsureStartedAsync(CancellationToken ct)
    {
        await gate.WaitAsync(ct);
        try
        {
            if (admin is not null) return;
            var server = await StartAsync(ct);
            Console.Error.WriteLine($"Tests use PostgreSQL from {Kind}.");
            admin = new NpgsqlConnectionStringBuilder(server) { Database = "postgres", MaxPoolSize = 4 }.ConnectionString;
            await ExecuteAsync($"CREATE DATABASE {template} TEMPLATE template0 ENCODING 'UTF8'", ct);
            var migrating = new NpgsqlConnectionStringBuilder(server) { Database = template, Pooling = false }.ConnectionString;
            await using (var db = new ShopDb(ShopDbOptions.For(migrating), new CurrentPerson(), TimeProvider.System))
                await db.Database.MigrateAsync(ct);
            // Nobody, autovacuum included, may be connected to a template while it is copied.
            await ExecuteAsync($"ALTER DATABASE {template} WITH ALLOW_CONNECTIONS false", ct);
        }
        finally
        {
            gate.Release();
        }
    }

    private async Task<string> StartAsync(CancellationToken ct)
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } named)
        {
            Kind = $"the server named by {Variable}";
            return named;
        }

        if (await DockerEngine.AnswersAsync(ct))
        {
            Kind = $"a container of {Image}";
            container = new PostgreSqlBuilder(Image)
                .WithCommand("-c", "fsync=off", "-c", "full_page_writes=off", "-c", "synchronous_commit=off", "-c", "max_connections=300")
                .Build();
            await container.StartAsync(ct);
            return container.GetConnectionString();
        }

        folder = TestFolders.Create("postgres");
        cluster = await PrivateCluster.StartAsync(new() { DataDirectory = folder, Durable = false }, ct);
        Kind = $"a private cluster in {folder}";
        return cluster.ConnectionString("postgres");
    }

    private async Task<TestDatabase> CopyAsync(string source, CancellationToken ct)
    {
        var name = $"test_{Guid.NewGuid():N}";
        await ExecuteAsync($"CREATE DATABASE {name} TEMPLATE {source} STRATEGY file_copy", ct);
        var connectionString = new NpgsqlConnectionStringBuilder(admin) { Database = name, MaxPoolSize = 80 }.ConnectionString;
        return new TestDatabase(connectionString, () => ExecuteAsync($"DROP DATABASE {name} WITH (FORCE)", CancellationToken.None));
    }

    private async Task ExecuteAsync(string sql, CancellationToken ct)
    {
        await using var connection = new NpgsqlConnection(admin);
        await connection.OpenAsync(ct);
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(ct);
    }
}
