namespace RepairShop.Services.Database;

/// <summary>Where the private database lies and how careful it is.</summary>
public sealed record PrivateClusterOptions
{
    public required string DataDirectory { get; init; }

    /// <summary>False leaves out every flush to disk: quick, and good for nothing but tests.</summary>
    public bool Durable { get; init; } = true;

    /// <summary>Folders holding PostgreSQL's programs; null looks in the usual places.</summary>
    public IReadOnlyList<string>? ProgramFolders { get; init; }
}
