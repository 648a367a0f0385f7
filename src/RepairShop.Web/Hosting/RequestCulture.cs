using System.Globalization;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Hosting;

/// <summary>Numbers and dates are read and written as the shop's locale does; the words are English.</summary>
internal static class RequestCulture
{
    private static readonly CultureInfo Words = CultureInfo.GetCultureInfo("en-GB");

    public static IApplicationBuilder UseShopCulture(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        var face = context.RequestServices.GetRequiredService<ShopFace>();
        await face.FreshenAsync(context.RequestAborted);
        CultureInfo.CurrentCulture = face.Culture;
        CultureInfo.CurrentUICulture = Words;
        await next();
    });
}
