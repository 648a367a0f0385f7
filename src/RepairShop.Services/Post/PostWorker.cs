using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace RepairShop.Services.Post;

/// <summary>Empties the outbox every few seconds, for as long as the program runs.</summary>
public sealed partial class PostWorker(PostOffice office, TimeProvider clock, ILogger<PostWorker> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(3);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Pause, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await office.RecoverAsync(stoppingToken);
                await office.SendDueAsync(stoppingToken);
            }
            catch (Exception failure) when (failure is not OperationCanceledException)
            {
                LogPaused(failure); // the database is away, perhaps: the letters wait in it
            }
        }
    }

    [LoggerMessage(LogLevel.Error, "The post could not be done and is tried again")]
    private partial void LogPaused(Exception failure);
}

public static class PostSetup
{
    public static IServiceCollection AddPost(this IServiceCollection services, IConfiguration configuration, string dataDirectory) => services
        .AddSingleton(MailSettings.Read(configuration, dataDirectory))
        .AddSingleton<PostOffice>()
        .AddHostedService<PostWorker>();
}
