using RepairShop.Services.Database;

namespace RepairShop.Web.Hosting;

/// <summary><c>backup DIR</c> and <c>restore DIR</c>; a backup may be taken while the program runs.</summary>
internal static class BackupCommands
{
    public static async Task<int> RunAsync(ShopDatabase database, StartOptions start)
    {
        if (start.BackupTo is { } target)
        {
            await ShopBackup.WriteAsync(database.ConnectionString, start.DataDirectory, target);
            Console.WriteLine($"The shop in {start.DataDirectory} is backed up in {target}.");
        }

        if (start.RestoreFrom is { } source)
        {
            await ShopBackup.RestoreAsync(database.ConnectionString, start.DataDirectory, source);
            Console.WriteLine($"The backup in {source} is restored into {start.DataDirectory}.");
        }

        return 0;
    }
}
