using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Hosting;

/// <summary>
/// Writes the bench and a repair's sheet to nobody once the program is open, so that the compiling they need is done while
/// somebody signs in. Changes nothing; what goes wrong is left for the first real request to meet. <c>WarmUp=false</c> leaves it out.
/// </summary>
internal sealed partial class WarmUp(
    IServiceScopeFactory scopes, EndpointDataSource endpoints, ShopFace face, IConfiguration configuration, TimeProvider clock, ILogger<WarmUp> log) : BackgroundService
{
    private static readonly TimeSpan AfterTheStart = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (!configuration.GetValue("WarmUp", true))
            return;
        await Task.Delay(AfterTheStart, clock, stoppingToken);
        try
        {
            if (await FullestAsync(stoppingToken) is { } number)
                await WriteAsync(number, stoppingToken);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            LogSkipped(failure.GetType().Name);
        }
    }

    private async Task<string?> FullestAsync(CancellationToken cancel)
    {
        await face.FreshenAsync(cancel);
        CultureInfo.CurrentCulture = face.Culture;
        await using var scope = scopes.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<SheetService>().FullestAsync(cancel);
    }

    private async Task WriteAsync(string number, CancellationToken cancel)
    {
        var began = clock.GetTimestamp();
        var bench = await WriteAsync("/Bench/Index", [], cancel);
        var sheet = await WriteAsync("/Repairs/Sheet", new() { ["number"] = number }, cancel);
        LogReady(bench, sheet, clock.GetElapsedTime(began).TotalMilliseconds);
    }

    /// <summary>The page as the owner would see it, past sign-in and log; how many bytes it has.</summary>
    private async Task<long> WriteAsync(string page, RouteValueDictionary route, CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(Guid.Empty, "", isOwner: true);
        using var body = new MemoryStream();
        var context = new DefaultHttpContext { RequestServices = scope.ServiceProvider, RequestAborted = cancel, User = Owner() };
        scope.ServiceProvider.GetRequiredService<IHttpContextAccessor>().HttpContext = context;
        context.Features.Set<IHttpResponseBodyFeature>(new StreamResponseBodyFeature(body));
        var endpoint = endpoints.Endpoints.First(one => one.Metadata.GetMetadata<PageActionDescriptor>()?.ViewEnginePath == page);
        route["page"] = page;
        (context.Request.Method, context.Request.Scheme, context.Request.Host) = (HttpMethods.Get, "http", new HostString("localhost"));
        context.Request.RouteValues = route;
        context.SetEndpoint(endpoint);
        await endpoint.RequestDelegate!(context);
        await context.Response.CompleteAsync();
        return body.Length;
    }

    private static ClaimsPrincipal Owner() => new(new ClaimsIdentity([new Claim(ClaimTypes.Role, Roles.Owner)], nameof(WarmUp)));

    [LoggerMessage(LogLevel.Information, "Bench ({Bench} bytes) and sheet ({Sheet} bytes) were written ahead in {Elapsed:0} ms")]
    private partial void LogReady(long bench, long sheet, double elapsed);

    [LoggerMessage(LogLevel.Information, "The first pages were not written ahead: {Why}")]
    private partial void LogSkipped(string why);
}
