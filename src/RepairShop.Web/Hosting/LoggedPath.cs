using Serilog.Events;

namespace RepairShop.Web.Hosting;

/// <summary>A request's address as the log may hold it: a customer's link is a key, and whoever reads a log must not get it.</summary>
internal static class LoggedPath
{
    private const string Answers = "/answer";

    private const string AfterAnswering = "/answer/thanks";

    public static IEnumerable<LogEventProperty> Properties(HttpContext context, string path, double elapsed, int status) =>
    [
        new("RequestMethod", new ScalarValue(context.Request.Method)),
        new("RequestPath", new ScalarValue(Of(path))),
        new("StatusCode", new ScalarValue(status)),
        new("Elapsed", new ScalarValue(elapsed)),
    ];

    private static string Of(string path) =>
        new PathString(path).StartsWithSegments(Answers, out var link) && link.HasValue && path != AfterAnswering ? $"{Answers}/…" : path;
}
