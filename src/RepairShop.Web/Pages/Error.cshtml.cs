using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace RepairShop.Web.Pages;

/// <summary>What a person sees when something did not work: a plain sentence and a reference that is in the log.</summary>
[IgnoreAntiforgeryToken]
[ResponseCache(Duration = 0, Location = ResponseCacheLocation.None, NoStore = true)]
public sealed class ErrorModel : PageModel
{
    public string Reference => HttpContext.TraceIdentifier;

    public string Heading { get; private set; } = "";

    public string Sentence { get; private set; } = "";

    public void OnGet(int? code) => Say(code);

    public void OnPost(int? code) => Say(code);

    private void Say(int? code) => (Heading, Sentence) = (code ?? Response.StatusCode) switch
    {
        400 => ("That could not be read", "Something in the request was missing or stale. Go back, load the page again and try once more; nothing was changed."),
        403 => ("Not for this account", "Your account may not open this page. Ask the owner, or sign in as somebody who may."),
        404 => ("Not found", "There is nothing at this address. It may have been mistyped, or removed meanwhile."),
        405 => ("Not here", "This address does not take what was sent. Go back and use the buttons of the page."),
        413 => ("Too large", "What was sent is larger than 30 MB, and nothing of it was kept. Press Back, choose a smaller file and send again."),
        429 => ("Too many tries", "Too many tries from here. Wait a minute, then try again."),
        503 => ("Not ready", "The database does not answer just now. Wait a moment and load the page again; nothing was changed."),
        >= 400 and < 500 => ("That did not work", "The request could not be carried out; nothing was changed."),
        _ => ("Something broke", "This is a fault in the program, not in what you did. What you sent was not saved. Try again; if it breaks again, note the reference."),
    };
}
