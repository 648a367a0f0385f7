using System.Globalization;
using System.Security.Claims;
using Serilog;
using Serilog.Events;

namespace RepairShop.Web.Hosting;

/// <summary>Console and a rolling file in the data folder; one line a request, with ids and never names.</summary>
internal static class ShopLogging
{
    private const string Template = "{Timestamp:yyyy-MM-dd HH:mm:ss.fff zzz} {Level:u3} {Reference} {Message:lj}{NewLine}{Exception}";

    public static WebApplicationBuilder AddShopLogging(this WebApplicationBuilder builder, StartOptions start)
    {
        builder.Services.AddSerilog(log => log
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("System", LogEventLevel.Warning)
            .MinimumLevel.Override("Microsoft.AspNetCore.DataProtection", LogEventLevel.Error)
            // A start that fails is told in a sentence (StartFailure), or ends the program with its exception.
            .MinimumLevel.Override("Microsoft.Extensions.Hosting.Internal.Host", LogEventLevel.Fatal)
            // What fails in the database comes up as an exception, which is logged once where it ends; here it would be said twice.
            .MinimumLevel.Override("Microsoft.EntityFrameworkCore.Database.Command", LogEventLevel.Fatal)
            .MinimumLevel.Override("Microsoft.EntityFrameworkCore.Query", LogEventLevel.Fatal)
            .MinimumLevel.Override("Microsoft.EntityFrameworkCore.Update", LogEventLevel.Fatal)
            .Enrich.FromLogContext()
            .WriteTo.Console(outputTemplate: Template, formatProvider: CultureInfo.InvariantCulture)
            .WriteTo.File(
                Path.Combine(start.DataDirectory, "logs", "shop-.log"),
                outputTemplate: Template,
                formatProvider: CultureInfo.InvariantCulture,
                rollingInterval: RollingInterval.Day,
                fileSizeLimitBytes: 50 * 1024 * 1024,
                rollOnFileSizeLimit: true,
                retainedFileCountLimit: 60,
                shared: true),
            preserveStaticLogger: true);
        return builder;
    }

    public static IApplicationBuilder UseRequestLog(this IApplicationBuilder app) => app.UseSerilogRequestLogging(options =>
    {
        options.Logger = app.ApplicationServices.GetRequiredService<Serilog.ILogger>();
        options.MessageTemplate = "{RequestMethod} {RequestPath} {StatusCode} in {Elapsed:0.0} ms by {Person}";
        options.GetMessageTemplateProperties = LoggedPath.Properties;
        options.GetLevel = (context, _, exception) =>
            exception is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
            : context.Request.Path.StartsWithSegments("/health") ? LogEventLevel.Verbose
            : LogEventLevel.Information;
        options.EnrichDiagnosticContext = (diagnostic, context) =>
            diagnostic.Set("Person", context.User.FindFirstValue(ClaimTypes.NameIdentifier) ?? "nobody");
    });
}
