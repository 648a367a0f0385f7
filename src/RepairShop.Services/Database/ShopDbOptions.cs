using Microsoft.EntityFrameworkCore;

namespace RepairShop.Services.Database;

/// <summary>The one place that says how the context talks to PostgreSQL: product, tests and tools alike.</summary>
public static class ShopDbOptions
{
    public static DbContextOptions<ShopDb> For(string connectionString) =>
        (DbContextOptions<ShopDb>)Configure(new DbContextOptionsBuilder<ShopDb>(), connectionString).Options;

    public static DbContextOptionsBuilder Configure(DbContextOptionsBuilder options, string connectionString) =>
        options.UseNpgsql(connectionString).UseSnakeCaseNamingConvention();
}
