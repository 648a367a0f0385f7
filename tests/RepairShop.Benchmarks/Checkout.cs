namespace RepairShop.Benchmarks;

/// <summary>The checkout these benchmarks were built in.</summary>
internal static class Checkout
{
    public static string Root { get; } = Find();

    /// <summary>A program as built beside the benchmarks, in the same configuration.</summary>
    public static string Program(string project)
    {
        var configuration = new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name;
        var built = Path.Combine(Root, "src", project, "bin", configuration, "net10.0", $"{project}.dll");
        return File.Exists(built) ? built : throw new InvalidOperationException($"{built} is missing: build it first.");
    }

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RepairShop.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The benchmarks run from a checkout.");
    }
}
