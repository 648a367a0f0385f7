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
        new("Money", "/invoices"),
        new("Figures", "/figures"),
        new("Shop", "/shop"),
    ];
}

public sealed record Room(string Name, string Path);
