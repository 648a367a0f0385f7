using System.Net;
using Microsoft.AspNetCore.HttpOverrides;

namespace RepairShop.Web.Hosting;

/// <summary>Headers on every answer, cookies, and whom to believe about addresses.</summary>
internal static class ShopSecurity
{
    public static IApplicationBuilder UseShopHeaders(this IApplicationBuilder app) => app.UseSecurityHeaders(new HeaderPolicyCollection()
        .AddContentTypeOptionsNoSniff()
        .AddFrameOptionsDeny()
        .AddReferrerPolicySameOrigin()
        .AddCrossOriginOpenerPolicy(policy => policy.SameOrigin())
        .AddCrossOriginResourcePolicy(policy => policy.SameOrigin())
        .RemoveServerHeader()
        .AddContentSecurityPolicy(csp =>
        {
            csp.AddDefaultSrc().None();
            csp.AddScriptSrc().Self().WithNonce();
            csp.AddStyleSrc().Self();
            csp.AddFontSrc().Self();
            csp.AddImgSrc().Self().Data().Blob();
            csp.AddMediaSrc().Self().Blob();
            csp.AddConnectSrc().Self();
            csp.AddManifestSrc().Self();
            csp.AddFormAction().Self();
            csp.AddBaseUri().None();
            csp.AddFrameAncestors().None();
        })
        // The microphone listens to shutters; nothing else of the device is asked for.
        .AddCustomHeader("Permissions-Policy", "microphone=(self), camera=(), geolocation=(), payment=(), usb=(), browsing-topics=()"));

    /// <summary>Behind a proxy the client's address and scheme come from its headers, believed only from the addresses named.</summary>
    public static IServiceCollection AddTrustedProxies(this IServiceCollection services, IConfiguration configuration)
    {
        var proxies = Proxies(configuration);
        return services.Configure<ForwardedHeadersOptions>(options =>
        {
            options.ForwardedHeaders = proxies.Length > 0
                ? ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost
                : ForwardedHeaders.None;
            options.KnownIPNetworks.Clear();
            options.KnownProxies.Clear();
            foreach (var proxy in proxies)
                options.KnownProxies.Add(proxy);
        });
    }

    private static IPAddress[] Proxies(IConfiguration configuration) =>
        [.. (configuration["TrustedProxies"] ?? "")
            .Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(IPAddress.Parse)];

    public static void Harden(CookieBuilder cookie, string name)
    {
        cookie.Name = name;
        cookie.HttpOnly = true;
        cookie.SameSite = SameSiteMode.Lax;
        cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.IsEssential = true;
    }
}
