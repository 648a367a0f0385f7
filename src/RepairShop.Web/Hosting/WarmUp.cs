using System.Diagnostics;
using System.Security.Claims;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Web.Hosting;

/// <summary>
/// The first repair sheet and the first release of a shutter after a start would each wait for their code and questions to be
/// compiled. So both are gone through once while somebody signs in: nothing is written, nothing is shown, and nothing hangs on it.
/// </summary>
internal sealed partial class WarmUp(
    IServiceScopeFactory scopes, EndpointDataSource endpoints, IHttpContextAccessor accessor, TimeProvider clock, ILogger<WarmUp> log) : BackgroundService
{
    /// <summary>The first page asked for goes first.</summary>
    private static readonly TimeSpan Wait = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Delay(Wait, clock, stoppingToken);
        try
        {
            var time = Stopwatch.StartNew();
            var sheet = await OpenSheetAsync(stoppingToken);
            var exposures = await Task.Run(() => RecordingAnalysis.Analyse(OneRelease(), Rig.OneSensor).Exposures.Count, stoppingToken);
            LogWarm(sheet, exposures, time.ElapsedMilliseconds);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            LogCold(failure); // the first sheet takes a second longer; a fault in it is told when somebody opens it
        }
    }

    /// <returns>The answer's status, or 0 in a book without a repair.</returns>
    private async Task<int> OpenSheetAsync(CancellationToken stop)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        var newest = await db.Repairs.OrderByDescending(repair => repair.Id).Select(repair => repair.Number).FirstOrDefaultAsync(stop);
        if (newest is null)
            return 0;
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(Guid.Empty, "", isOwner: true);
        var page = endpoints.Endpoints.Single(endpoint => endpoint.Metadata.GetMetadata<PageActionDescriptor>()?.ViewEnginePath == "/Repairs/Sheet");
        var context = new DefaultHttpContext
        {
            RequestServices = scope.ServiceProvider,
            RequestAborted = stop,
            User = new ClaimsPrincipal(new ClaimsIdentity(
                [new(ClaimTypes.NameIdentifier, $"{Guid.Empty}"), new(ClaimTypes.Role, Roles.Owner)], nameof(WarmUp))),
            Request = { Method = HttpMethods.Get, Scheme = "http", Host = new("localhost"), Path = $"/repairs/{newest}", RouteValues = { ["page"] = "/Repairs/Sheet", ["number"] = newest } },
        };
        accessor.HttpContext = context;
        context.SetEndpoint(page);
        await page.RequestDelegate!(context);
        return context.Response.StatusCode;
    }

    /// <summary>Half a second through a sound input: dark, 10 ms of light with a soft start and end, dark.</summary>
    private static Recording OneRelease()
    {
        const int Rate = 48_000;
        var samples = new float[Rate / 2];
        for (var at = 0; at < samples.Length; at++)
        {
            var milliseconds = (at - (samples.Length / 2)) * 1000d / Rate;
            // A little unrest, or a sensor that never trembles would be taken for a damaged recording.
            samples[at] = (float)((0.5 * Math.Clamp(Math.Min(milliseconds, 10 - milliseconds), 0, 1)) + (0.0005 * Math.Sin(at * 1.7)));
        }

        return new Recording(Rate, [samples]);
    }

    [LoggerMessage(LogLevel.Information, "Warmed up in {Milliseconds} ms: newest sheet {Status}, exposures found {Exposures}")]
    private partial void LogWarm(int status, int exposures, long milliseconds);

    [LoggerMessage(LogLevel.Warning, "The first sheet was not warmed up")]
    private partial void LogCold(Exception failure);
}
