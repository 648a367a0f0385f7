using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using RepairShop.Services.Database;

namespace RepairShop.Web.Hosting;

/// <summary><c>/health/live</c>: the process answers. <c>/health/ready</c>: the database does too.</summary>
internal static class Health
{
    private const string Ready = "ready";

    public static IServiceCollection AddShopHealth(this IServiceCollection services)
    {
        services.AddHealthChecks().AddCheck<DatabaseHealth>("database", HealthStatus.Unhealthy, [Ready], TimeSpan.FromSeconds(5));
        return services;
    }

    public static void MapShopHealth(this IEndpointRouteBuilder app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false }).AllowAnonymous();
        app.MapHealthChecks("/health/ready", new HealthCheckOptions { Predicate = check => check.Tags.Contains(Ready) }).AllowAnonymous();
    }
}
