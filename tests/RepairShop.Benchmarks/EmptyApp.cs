namespace RepairShop.Benchmarks;

/// <summary>A web program that does nothing but answer, as the measure of a cold start.</summary>
internal static class EmptyApp
{
    public static async Task<int> RunAsync(string url)
    {
        var builder = WebApplication.CreateBuilder();
        builder.WebHost.UseUrls(url);
        builder.Logging.ClearProviders();
        await using var app = builder.Build();
        app.MapGet("/", () => "open");
        await app.RunAsync();
        return 0;
    }
}
