using System.Diagnostics;

namespace RepairShop.Testing;

/// <summary>
/// A folder that takes no more: a tiny file system, filled, where this user may mount one; else a plain file in the folder's
/// place, which nothing can be written under. Room again when disposed. Says which it is.
/// </summary>
public sealed class FullDisk : IAsyncDisposable
{
    private bool gone;

    private FullDisk(string folder, bool mounted) => (Folder, IsMounted) = (folder, mounted);

    public string Folder { get; }

    /// <summary>True where the kernel itself says that there is no space left.</summary>
    public bool IsMounted { get; }

    public static FullDisk At(string folder)
    {
        Directory.CreateDirectory(folder);
        var mounted = Run("mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", folder);
        if (mounted)
        {
            File.WriteAllBytes(Path.Combine(folder, "full"), new byte[56 * 1024]);
        }
        else
        {
            Directory.Delete(folder, recursive: true);
            File.WriteAllText(folder, "");
        }
        Console.Error.WriteLine(mounted ? "The disk is full: a small file system of its own." : "The disk is closed: a file in the folder's place.");
        return new FullDisk(folder, mounted);
    }

    public ValueTask DisposeAsync()
    {
        if (gone)
            return ValueTask.CompletedTask;
        gone = true;
        if (!IsMounted)
            File.Delete(Folder);
        else if (!Run("umount", "-l", Folder))
            throw new InvalidOperationException($"{Folder} could not be unmounted.");
        return ValueTask.CompletedTask;
    }

    private static bool Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
