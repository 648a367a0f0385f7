using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Web.KeptText;

namespace RepairShop.Web.Pages;

/// <summary>What a person sees when something did not work: a plain sentence and a reference that is in the log.</summary>
[IgnoreAntiforgeryToken]
[ResponseCache(Duration = 0, Location = ResponseCacheLocation.None, NoStore = true)]
public sealed class ErrorModel : PageModel
{
    public string Reference => HttpContext.TraceIdentifier;

    public string Heading { get; private set; } = "";

    public string Sentence { get; private set; } = "";

    /// <summary>The page whose form was too large, to begin anew from; null where there is none.</summary>
    public string? Form => Response.StatusCode == StatusCodes.Status413PayloadTooLarge && HttpContext.Features.Get<IStatusCodeReExecuteFeature>() is { } sent
        ? sent.OriginalPathBase + sent.OriginalPath
        : null;

    public void OnGet(int? code) => Say(code);

    /// <summary>What passes by itself (the database is away, the disk is full) brings the form back, to be sent again.</summary>
    public async Task<IActionResult> OnPostAsync(int? code)
    {
        Say(code);
        if (Response.StatusCode is not (StatusCodes.Status503ServiceUnavailable or StatusCodes.Status507InsufficientStorage)
            || HttpContext.Features.Get<IExceptionHandlerPathFeature>() is not { } failed || KeptForms.HoldsSecrets(failed.Path)
            || await KeptForms.Read(Request) is not { } form)
            return Page();
        return KeptForms.Show(form with { Url = $"{Request.PathBase}{failed.Path}{Request.QueryString}", Why = $"{Heading}. {Sentence}" });
    }

    private void Say(int? code) => (Heading, Sentence) = (code ?? Response.StatusCode) switch
    {
        400 => ("That could not be read", "Something in the request was missing or stale. Go back, load the page again and try once more; nothing was changed."),
        403 => ("Not for this account", "Your account may not open this page. Ask the owner, or sign in as somebody who may."),
        404 => ("Not found", "There is nothing at this address. It may have been mistyped, or removed meanwhile."),
        405 => ("Not here", "This address does not take what was sent. Go back and use the buttons of the page."),
        413 => ("Too large", "What was sent is larger than 30 MB, and nothing of it was kept. Press Back, choose a smaller file and send again. A recording of a shutter may have 200 MB."),
        429 => ("Too many tries", "Too many tries from here. Wait a minute, then try again."),
        507 => ("The disk is full", "There is no room left for what was sent, and nothing of it was saved. Make room on the disk with the data folder, then send it again."),
        503 => ("Not ready", "The database does not answer just now. Wait a moment and try again; nothing was changed."),
        >= 400 and < 500 => ("That did not work", "The request could not be carried out; nothing was changed."),
        _ => ("Something broke", "This is a fault in the program, not in what you did. What you sent was not saved. Try again; if it breaks again, note the reference."),
    };
}
