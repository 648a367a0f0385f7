namespace RepairShop.Web.Hosting;

/// <summary>Where the program listens, what it logs, how much it takes.</summary>
internal static class ShopHost
{
    public static void AddShopHost(this WebApplicationBuilder builder, StartOptions start)
    {
        if (string.IsNullOrEmpty(builder.Configuration[WebHostDefaults.ServerUrlsKey]))
            builder.WebHost.UseUrls(start.Address);
        builder.WebHost.UseStaticWebAssets();
        // Else a program that was built but not published has its style sheets asked for anew on every page.
        if (!builder.Environment.IsDevelopment())
            builder.Configuration["ReloadStaticAssetsAtRuntime"] = "false";
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = SizeLimit.Bytes;
        });
        builder.AddShopLogging(start);
        builder.Services.AddSingleton(start);
        builder.Services.AddTrustedProxies(builder.Configuration);
        builder.Services.AddShopCompression();
        builder.Services.AddShopHealth();
    }
}
