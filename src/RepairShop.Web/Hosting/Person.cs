using System.Security.Claims;
using RepairShop.Services.Accounts;

namespace RepairShop.Web.Hosting;

/// <summary>Tells the services who is acting, and leads a person with a handed-over password to the page where it is changed.</summary>
internal static class Person
{
    public const string PasswordPage = "/account/password";

    public static IApplicationBuilder UsePerson(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        if (Guid.TryParse(context.User.FindFirstValue(ClaimTypes.NameIdentifier), out var id))
        {
            context.RequestServices.GetRequiredService<CurrentPerson>().Is(
                id, context.User.FindFirstValue(AccountClaims.DisplayName) ?? "", context.User.IsInRole(Roles.Owner));
        }

        var path = context.Request.Path;
        if (context.User.HasClaim(claim => claim.Type == AccountClaims.MustChangePassword)
            && path != PasswordPage && !path.StartsWithSegments("/account/sign-out") && !path.StartsWithSegments("/error"))
        {
            context.Response.Redirect(PasswordPage);
            return Task.CompletedTask;
        }

        return next();
    });
}
