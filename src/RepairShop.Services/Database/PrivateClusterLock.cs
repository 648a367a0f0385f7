using System.Runtime.Versioning;

namespace RepairShop.Services.Database;

/// <summary>One program per data folder: an advisory lock the kernel lets go of when the process ends, however it ends.</summary>
[UnsupportedOSPlatform("windows")]
internal static class PrivateClusterLock
{
    public const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    /// <summary>EWOULDBLOCK as Linux and macOS number it.</summary>
    private static readonly int[] WouldBlock = [11, 35];

    public static FileStream Take(PrivateClusterFolders folders)
    {
        try
        {
            DataFolder.Create(folders.Root);
            return new FileStream(folders.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e) when (WouldBlock.Contains(e.HResult))
        {
            throw new PrivateClusterException(
                $"The data folder {folders.Root} is already in use by another running copy of this program; use that one, stop it "
                + "first, or choose another folder with --data.", e);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new PrivateClusterException(
                $"The data folder {folders.Root} cannot be made or written to ({e.Message}); correct its rights or choose another "
                + "folder with --data.", e);
        }
    }
}
