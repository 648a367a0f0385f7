namespace RepairShop.Testing;

/// <summary>Small pictures that come with the project.</summary>
public static class Seed
{
    public static string Photo(string name) => Path.Combine(Root(), "seed/photos", name);

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "RepairShop.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("The tests run outside the project.");
        return folder.FullName;
    }
}
