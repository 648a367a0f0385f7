using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;

namespace RepairShop.Web.Forms;

/// <summary>
/// Pages that work something out by GET: what was typed stands in the address, so nothing is lost by going back and the page can be printed; only keeping
/// the result changes the book and is a POST, which carries the same fields.
/// </summary>
internal static class SentFields
{
    private const string Prefix = "Input.";

    /// <summary>Whether something was sent, rather than an empty page opened; on an empty page nothing is missing yet.</summary>
    public static bool IsSent(this PageModel page)
    {
        if (Of(page.Request).Any())
            return true;
        page.ModelState.Clear();
        return false;
    }

    /// <summary>Works it out once all of it could be read; otherwise the sentences stand at their fields and there is no result.</summary>
    public static TWorked? WorkOut<TWorked>(this PageModel page, Func<Result<TWorked>> work)
        where TWorked : class
    {
        var worked = page.ModelState.IsValid ? work() : default;
        if (worked.Value is { } done)
            return done;
        page.Note(worked.Failure);
        page.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return null;
    }

    /// <summary>The fields as they were sent, to be sent again.</summary>
    public static IEnumerable<KeyValuePair<string, string>> Of(HttpRequest request) =>
        (request.HasFormContentType ? request.Form.AsEnumerable() : request.Query)
            .Where(field => field.Key.StartsWith(Prefix, StringComparison.Ordinal))
            .SelectMany(field => field.Value.Select(value => new KeyValuePair<string, string>(field.Key, value ?? "")));
}
