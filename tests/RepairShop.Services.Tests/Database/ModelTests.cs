using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Database.Compiled;
using Xunit;

namespace RepairShop.Services.Tests.Database;

public sealed partial class ModelTests
{
    /// <summary>A property or rule added without its migration would be missed only on a workshop's machine.</summary>
    [Fact]
    public void The_migrations_say_all_that_the_model_says()
    {
        using var db = new ShopDb(ShopDbOptions.For("Host=unused"), new CurrentPerson(), TimeProvider.System);
        Assert.False(db.Database.HasPendingModelChanges());
    }

    /// <summary>A start takes the model as it was written down (DEVELOPERS.md, "A column"), so that must be what the classes say today.</summary>
    [Fact]
    public void The_compiled_model_is_the_model()
    {
        using var db = new ShopDb(ShopDbOptions.For("Host=unused"), new CurrentPerson(), TimeProvider.System);
        Assert.IsType<ShopDbModel>(db.Model);
        var today = db.GetService<IModelRuntimeInitializer>().Initialize(db.GetService<IDesignTimeModel>().Model, designTime: false);
        Assert.IsNotType<ShopDbModel>(today);
        Assert.Equal(Said(today), Said(db.Model));
        Assert.Equal(Columns(today), Columns(db.Model));
    }

    /// <summary>Without what only one of the two keeps: how an index is built, once more the table of an address inside it, and what
    /// other tests have asked of the database without a class of its own.</summary>
    private static string Said(IModel model) =>
        OneSided().Replace(model.ToDebugString(MetadataDebugStringOptions.LongDefault), "");

    private static IEnumerable<string> Columns(IModel model) =>
        from type in model.GetEntityTypes()
        from property in type.GetFlattenedProperties()
        let converter = property.GetValueConverter() ?? property.GetTypeMapping().Converter
        select $"{type.Name} {property.Name}: {property.GetColumnType()} by {converter?.GetType().ToString() ?? "nothing"}";

    [GeneratedRegex(@"\n {10}Annotations: *(\n {12}.*)+|\n +Npgsql:IndexMethod: \w+|\n  Ad-hoc entity types: *(\n {4}.*)*")]
    private static partial Regex OneSided();
}
