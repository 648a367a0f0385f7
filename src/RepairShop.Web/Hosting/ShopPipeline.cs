using Microsoft.AspNetCore.ResponseCompression;
using RepairShop.Services.Accounts;
using RepairShop.Web.KeptText;

namespace RepairShop.Web.Hosting;

/// <summary>The order in which a request passes through the house.</summary>
internal static class ShopPipeline
{
    public static void UseShopPipeline(this WebApplication app)
    {
        app.UseForwardedHeaders();
        app.UseRequestReference();
        app.UseShopHeaders();
        app.UseRequestLog();
        app.UseResponseCompression();
        app.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandlingPath = "/error", StatusCodeSelector = Outages.StatusOf });
        app.UseStatusCodePagesWithReExecute("/error/{0}");
        app.UseSizeLimit();
        app.UseFormText();
        app.UseKeptForms();
        app.UseRouting();
        app.WhileTheDatabaseAnswers(house => house.UseShopCulture().UseFirstStartGate());
        app.UseAuthentication();
        app.UsePerson();
        app.UseAuthorization();
        app.MapStaticAssets().AllowAnonymous();
        app.MapShopHealth();
        app.MapRazorPages().WithStaticAssets();
    }

    public static IServiceCollection AddShopCompression(this IServiceCollection services) => services.AddResponseCompression(options =>
        options.MimeTypes = ResponseCompressionDefaults.MimeTypes.Append("image/svg+xml"));

    /// <summary>What a person at the console needs to know.</summary>
    public static async Task AnnounceAsync(this WebApplication app, StartOptions start)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var address = app.Urls.FirstOrDefault() ?? start.Address;
        Console.WriteLine($"The workshop book is open at {address}");
        if (!await scope.ServiceProvider.GetRequiredService<AccountService>().HasOwner())
            Console.WriteLine($"It has no owner yet. Code for the first start: {app.Services.GetRequiredService<FirstStart>().Code}");
    }
}
