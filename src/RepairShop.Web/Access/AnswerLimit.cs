using System.Threading.RateLimiting;

namespace RepairShop.Web.Access;

/// <summary>How often one address may try answer links: enough for a person, hopeless for a search through 2^256.</summary>
public sealed class AnswerLimit : IDisposable
{
    public const int PerAddress = 30;

    public static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private readonly PartitionedRateLimiter<string> addresses = PartitionedRateLimiter.Create<string, string>(key =>
        RateLimitPartition.GetFixedWindowLimiter(key, _ => new FixedWindowRateLimiterOptions
        {
            PermitLimit = PerAddress,
            Window = Window,
            QueueLimit = 0,
        }));

    /// <summary>Counts one try; false when there were too many.</summary>
    public bool Allows(HttpContext context)
    {
        using var lease = addresses.AttemptAcquire(context.Connection.RemoteIpAddress?.ToString() ?? "");
        return lease.IsAcquired;
    }

    public void Dispose() => addresses.Dispose();
}
