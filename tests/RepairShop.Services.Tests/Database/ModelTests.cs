using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using Xunit;

namespace RepairShop.Services.Tests.Database;

public sealed class ModelTests
{
    /// <summary>A property or rule added without its migration would be missed only on a workshop's machine.</summary>
    [Fact]
    public void The_migrations_say_all_that_the_model_says()
    {
        using var db = new ShopDb(ShopDbOptions.For("Host=unused"), new CurrentPerson(), TimeProvider.System);
        Assert.False(db.Database.HasPendingModelChanges());
    }
}
