using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace RepairShop.Services.Database;

/// <summary>Whether the database answers.</summary>
public sealed class DatabaseHealth(ShopDb db) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        await db.Database.CanConnectAsync(cancellationToken)
            ? HealthCheckResult.Healthy()
            : HealthCheckResult.Unhealthy("The database does not answer.");
}
