using System.Threading.RateLimiting;

namespace RepairShop.Web.Access;

/// <summary>How often one may try a password or a code: per address, so that nobody tries many accounts, and per account, so that nobody tries from many addresses.</summary>
public sealed class SignInLimit : IDisposable
{
    public const int PerAddress = 20;
    public const int PerAccount = 10;

    public static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private readonly PartitionedRateLimiter<string> addresses = Limiter(PerAddress);
    private readonly PartitionedRateLimiter<string> accounts = Limiter(PerAccount);

    /// <summary>Counts one try; false when there were too many.</summary>
    public bool Allows(HttpContext context, string account)
    {
        using var byAddress = addresses.AttemptAcquire(context.Connection.RemoteIpAddress?.ToString() ?? "");
        using var byAccount = accounts.AttemptAcquire(account.Trim().ToUpperInvariant());
        return byAddress.IsAcquired && byAccount.IsAcquired;
    }

    public void Dispose()
    {
        addresses.Dispose();
        accounts.Dispose();
    }

    private static PartitionedRateLimiter<string> Limiter(int permits) => PartitionedRateLimiter.Create<string, string>(key =>
        RateLimitPartition.GetFixedWindowLimiter(key, _ => new FixedWindowRateLimiterOptions
        {
            PermitLimit = permits,
            Window = Window,
            QueueLimit = 0,
        }));
}
