namespace RepairShop.Services.Database;

/// <summary>The folder that holds everything of one shop: names, addresses and photos, so closed to other users.</summary>
public static class DataFolder
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private const UnixFileMode OthersMayPass = OwnerOnly | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute;

    /// <summary>What only this program reads and writes; the folder above them may have to be passed through by others.</summary>
    private static readonly string[] Ours = ["files", "post", "logs"];

    /// <summary>The shop's folder, and within it those that hold customers' papers, letters and the log.</summary>
    public static void CreateWithRooms(string path)
    {
        Create(path);
        foreach (var name in Ours)
            CreateClosed(Path.Combine(path, name));
    }

    /// <summary>For this user alone.</summary>
    public static void CreateClosed(string path)
    {
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(path);
        else Directory.CreateDirectory(path, OwnerOnly);
    }

    /// <summary>Leaves a folder that is already there, and its rights, as they are.</summary>
    public static void Create(string path)
    {
        if (Directory.Exists(path)) return;
        // Started by root, the database server is another user, who must be able to pass through to its own folder.
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(path);
        else Directory.CreateDirectory(path, Environment.IsPrivilegedProcess ? OthersMayPass : OwnerOnly);
    }
}
