namespace RepairShop.Web.Access;

/// <summary>The rooms of the workshop in the order of the header.</summary>
public static class Rooms
{
    public static IReadOnlyList<Room> All { get; } =
    [
        new("Bench", "/bench"),
        new("Repairs", "/repairs"),
        new("Customers", "/customers"),
        new("Cameras", "/cameras"),
        new("Notebook", "/notebook"),
        new("Stock", "/stock"),
        new("Tools", "/tools"),
        new("Money", "/invoices", "/banking", "/post"),
        new("Figures", "/figures", "/ledger"),
        new("Shop", "/shop"),
    ];
}

/// <param name="Name">As it stands in the header.</param>
/// <param name="Path">Where its door leads.</param>
/// <param name="Further">Where else one is in the same room.</param>
public sealed record Room(string Name, string Path, params IReadOnlyList<string> Further)
{
    public bool Holds(PathString path) => path.StartsWithSegments(Path) || Further.Any(further => path.StartsWithSegments(further));
}
