namespace RepairShop.Services.Accounts;

/// <summary>What people are here. The owner may everything; what the others may is the web program's access table.</summary>
public static class Roles
{
    public const string Owner = "owner";
    public const string Bench = "bench";
    public const string Counter = "counter";

    public static IReadOnlyList<string> All { get; } = [Owner, Bench, Counter];
}
