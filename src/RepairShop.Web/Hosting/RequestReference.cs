using System.Security.Cryptography;
using Serilog.Context;

namespace RepairShop.Web.Hosting;

/// <summary>Gives each request a short reference a person can read out over the telephone; it is on every line of the log.</summary>
internal static class RequestReference
{
    // No 0/O, 1/I/L: read aloud and typed without mistakes.
    private const string Letters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";

    public static IApplicationBuilder UseRequestReference(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        context.TraceIdentifier = RandomNumberGenerator.GetString(Letters, 8);
        using (LogContext.PushProperty("Reference", context.TraceIdentifier))
            await next();
    });
}
