using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Accounts;
using RepairShop.Web.Access;
using RepairShop.Web.Forms;
using RepairShop.Web.KeptText;

namespace RepairShop.Web.Hosting;

/// <summary>Razor Pages with the house rules: access table, antiforgery on every post, house sentences, kept text.</summary>
internal static class ShopPages
{
    public static IServiceCollection AddShopPages(this IServiceCollection services)
    {
        services.AddRazorPages(options => options.Conventions.Add(new AccessConvention()))
            .AddMvcOptions(options =>
            {
                ValidationSentences.Use(options);
                options.Filters.Add(new StaleFormFilter());
            });
        // The server says what is wrong, in its own sentences; a browser that cuts off a long paste would lose text silently.
        services.Configure<MvcViewOptions>(options => options.HtmlHelperOptions.ClientValidationEnabled = false);
        services.Configure<FormOptions>(options =>
        {
            options.MultipartBodyLengthLimit = SizeLimit.Bytes;
            options.ValueLengthLimit = 1024 * 1024;
        });
        services.Configure<CookieTempDataProviderOptions>(options => ShopSecurity.Harden(options.Cookie, "notice"));
        services.Configure<AntiforgeryOptions>(options =>
        {
            ShopSecurity.Harden(options.Cookie, "form");
            options.Cookie.SameSite = SameSiteMode.Strict;
            options.SuppressXFrameOptionsHeader = true; // frame-ancestors and X-Frame-Options are sent for every answer
        });
        services.ConfigureApplicationCookie(options =>
        {
            ShopSecurity.Harden(options.Cookie, "session");
            options.LoginPath = "/account/sign-in";
            options.LogoutPath = "/account/sign-out";
            options.ReturnUrlParameter = "to";
            options.ExpireTimeSpan = TimeSpan.FromHours(12);
            options.SlidingExpiration = true;
            options.Events.OnValidatePrincipal = Outages.ValidatePrincipalAsync;
            options.Events.OnRedirectToLogin = KeptForms.OnSignInNeeded;
            options.Events.OnRedirectToAccessDenied = context =>
            {
                context.Response.StatusCode = StatusCodes.Status403Forbidden;
                return Task.CompletedTask;
            };
        });
        services.AddAuthorizationBuilder().SetFallbackPolicy(
            new AuthorizationPolicyBuilder().RequireAuthenticatedUser().RequireRole(Roles.All).Build());
        services.AddSingleton<SignInLimit>();
        services.AddSingleton<AnswerLimit>();
        services.AddSingleton<KeptForms>();
        services.AddHostedService<WarmUp>();
        return services;
    }
}
