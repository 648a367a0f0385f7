namespace RepairShop.Web.KeptText;

internal static class KeptFormsMiddleware
{
    /// <summary>Runs the sign-in page in the same request when a form needed signing in; comes before routing.</summary>
    public static IApplicationBuilder UseKeptForms(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        await next();
        if (!context.Items.ContainsKey(KeptForms.Item) || context.Response.HasStarted)
            return;
        context.SetEndpoint(null);
        context.Request.RouteValues.Clear();
        context.Request.Method = HttpMethods.Get;
        context.Request.Path = "/account/sign-in";
        context.Request.QueryString = QueryString.Empty;
        await next();
    });
}
