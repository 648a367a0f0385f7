using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;

namespace RepairShop.Web.Hosting;

/// <summary>Until the shop has an owner every page leads to the first start.</summary>
internal static class FirstStartGate
{
    public const string Path = "/first-start";

    public static IApplicationBuilder UseFirstStartGate(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        var isPage = context.GetEndpoint()?.Metadata.GetMetadata<PageActionDescriptor>() is not null;
        var path = context.Request.Path;
        if (isPage && path != Path && !path.StartsWithSegments("/error")
            && !await context.RequestServices.GetRequiredService<AccountService>().HasOwner(context.RequestAborted))
        {
            context.Response.Redirect(Path);
            return;
        }

        await next();
    });
}
