using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Shop;

namespace RepairShop.Services;

/// <summary>Everything the web program and the tests need from here, registered in one place.</summary>
public static class ShopServices
{
    /// <summary>Registers the database, the file store and, by their name's ending "Service", all use-case classes.</summary>
    /// <param name="services">A <see cref="TimeProvider"/> already in it stays.</param>
    /// <param name="connectionString">Where PostgreSQL is.</param>
    /// <param name="dataDirectory">Holds <c>files/</c>.</param>
    public static IServiceCollection AddShopServices(
        this IServiceCollection services, string connectionString, string dataDirectory)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.AddScoped<CurrentPerson>();
        services.AddDbContext<ShopDb>(options => ShopDbOptions.Configure(options, connectionString));
        services.AddSingleton(new FileStore(Path.Combine(dataDirectory, "files")));
        services.AddSingleton<ShopFace>();
        services.AddAccounts();
        foreach (var type in typeof(ShopServices).Assembly.GetExportedTypes().Where(IsUseCase))
            services.AddScoped(type);
        return services;
    }

    private static bool IsUseCase(Type type) =>
        type is { IsClass: true, IsAbstract: false, IsGenericType: false } && type.Name.EndsWith("Service", StringComparison.Ordinal);
}
