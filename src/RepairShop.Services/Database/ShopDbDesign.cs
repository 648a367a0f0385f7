using Microsoft.EntityFrameworkCore.Design;
using RepairShop.Services.Accounts;

namespace RepairShop.Services.Database;

/// <summary>Lets the migration tool make a context; it never connects.</summary>
internal sealed class ShopDbDesign : IDesignTimeDbContextFactory<ShopDb>
{
    public ShopDb CreateDbContext(string[] args) =>
        new(ShopDbOptions.For("Host=localhost;Database=design"), new CurrentPerson(), TimeProvider.System);
}
