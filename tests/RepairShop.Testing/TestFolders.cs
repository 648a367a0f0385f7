namespace RepairShop.Testing;

public static class TestFolders
{
    /// <summary>A new folder that other users may pass through, as the database server's user must when tests run as root.</summary>
    public static string Create(string purpose)
    {
        var path = Path.Combine(Path.GetTempPath(), $"repairshop-{purpose}-{Guid.NewGuid():N}"[..32]);
        Directory.CreateDirectory(path);
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
                | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute);
        return path;
    }
}
