using System.Net.Sockets;
using Npgsql;

namespace RepairShop.Services.Database;

/// <summary>What to say when the database keeps the program from starting, for the cases a person can put right.</summary>
public static class DatabaseStartFailure
{
    public static string? Sentence(Exception exception) => exception switch
    {
        PrivateClusterException cluster => cluster.Message,
        ShopBackupException backup => backup.Message,
        NpgsqlException { InnerException: SocketException } database =>
            $"The database does not answer ({database.Message}): start it, or check ConnectionStrings:Shop.",
        PostgresException { SqlState: PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification } =>
            "The database refuses the name or password in ConnectionStrings:Shop: put them right.",
        PostgresException { SqlState: PostgresErrorCodes.InvalidCatalogName } missing =>
            $"{missing.MessageText}: create it, or name another in ConnectionStrings:Shop.",
        _ => null,
    };
}
