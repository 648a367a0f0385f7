using System.Text;

namespace RepairShop.Web.Hosting;

/// <summary>
/// A form that holds the character of number zero can't be read at all: the framework fails on it before any page is asked, and
/// what was typed beside it would be lost. It came with a paste and is nothing anybody typed, so it is left out on the way in.
/// </summary>
internal static class FormText
{
    // What people type is far below; larger than this is read as it comes.
    private const long MostBytes = 4 * 1024 * 1024;

    public static IApplicationBuilder UseFormText(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        if (IsTyped(context.Request))
            context.Request.Body = await WithoutZerosAsync(context.Request.Body, context.RequestAborted);
        await next();
    });

    private static bool IsTyped(HttpRequest request) =>
        request.ContentType?.StartsWith("application/x-www-form-urlencoded", StringComparison.OrdinalIgnoreCase) == true
        && request.ContentLength is > 0 and <= MostBytes;

    private static async Task<Stream> WithoutZerosAsync(Stream body, CancellationToken ct)
    {
        using var whole = new MemoryStream();
        await body.CopyToAsync(whole, ct);
        var sent = Encoding.Latin1.GetString(whole.GetBuffer(), 0, (int)whole.Length);
        return new MemoryStream(Encoding.Latin1.GetBytes(sent.Replace("%00", "", StringComparison.Ordinal).Replace("\0", "", StringComparison.Ordinal)));
    }
}
