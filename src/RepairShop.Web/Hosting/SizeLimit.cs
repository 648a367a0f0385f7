using Microsoft.AspNetCore.Http.Features;
using RepairShop.Services.Recordings;

namespace RepairShop.Web.Hosting;

/// <summary>The largest thing one may send: a big photo with some room, and on the one page that takes recordings a recording.</summary>
internal static class SizeLimit
{
    public const long Bytes = 30 * 1024 * 1024;

    /// <summary>A recording of 200 MB, and the fields beside it.</summary>
    public const long RecordingBytes = RecordingReader.MostBytes + 1024 * 1024;

    /// <summary>Says no before reading, so that the friendly page can still be sent.</summary>
    public static IApplicationBuilder UseSizeLimit(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        if (context.Request.ContentLength is not { } length || length <= For(context.Request.Path))
            return next();
        // The page that says so is run in this same request and must not try to read it; the server may pour the rest away,
        // or the browser would show a broken connection instead of the page.
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            limit.MaxRequestBodySize = null;
        context.Request.ContentType = null;
        context.Request.ContentLength = 0;
        context.Request.Body = Stream.Null;
        context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
        return Task.CompletedTask;
    });

    /// <summary>Before routing, so by the address: /repairs/…/shutter/…/recording.</summary>
    private static long For(PathString path) =>
        path.StartsWithSegments("/repairs") && path.Value!.Contains("/shutter/", StringComparison.OrdinalIgnoreCase)
        && path.Value.EndsWith("/recording", StringComparison.OrdinalIgnoreCase) ? RecordingBytes : Bytes;
}
