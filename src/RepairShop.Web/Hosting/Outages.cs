using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Identity;
using RepairShop.Services.Database;

namespace RepairShop.Web.Hosting;

/// <summary>While the database is away the page that says so must not ask it anything.</summary>
internal static class Outages
{
    /// <summary>503 for a database that is away, 507 for a full disk, 500 for a fault of the program.</summary>
    public static int StatusOf(Exception exception) =>
        Outage.IsDatabaseAway(exception) ? StatusCodes.Status503ServiceUnavailable
        : Outage.IsDiskFull(exception) ? StatusCodes.Status507InsufficientStorage
        : StatusCodes.Status500InternalServerError;

    /// <summary>True in the part of a request that tells of a database that is away.</summary>
    public static bool IsDatabaseAway(this HttpContext context) => Outage.IsDatabaseAway(context.Features.Get<IExceptionHandlerFeature>()?.Error);

    /// <summary>Steps that ask the database, left out where it has just failed to answer.</summary>
    public static IApplicationBuilder WhileTheDatabaseAnswers(this IApplicationBuilder app, Action<IApplicationBuilder> steps) =>
        app.UseWhen(context => !context.IsDatabaseAway(), steps);

    /// <summary>
    /// Whether a sign-in still holds is asked of the database from time to time. While it is away the person stays who they were, so that
    /// the page that tells of it can be shown; every page that holds anything fails by itself.
    /// </summary>
    public static async Task ValidatePrincipalAsync(CookieValidatePrincipalContext context)
    {
        try
        {
            await SecurityStampValidator.ValidatePrincipalAsync(context);
        }
        catch (Exception failed) when (Outage.IsDatabaseAway(failed))
        {
            context.ShouldRenew = false;
        }
    }
}
