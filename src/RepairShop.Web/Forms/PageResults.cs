using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;

namespace RepairShop.Web.Forms;

/// <summary>
/// Turns a service's answer into a page's: done → go on; not found → 404; conflict → a sentence on top of the form; invalid → a
/// sentence at its field; changed meanwhile → both values. In a handler:
/// <code>return await this.Answer(await service.Save(...), "Saved.", () => RedirectToPage(), Load);</code>
/// </summary>
public static class PageResults
{
    /// <param name="page">The page that asked.</param>
    /// <param name="result">What the service said.</param>
    /// <param name="notice">Shown on the next page when done; null for none.</param>
    /// <param name="done">Where to go when done.</param>
    /// <param name="again">Loads what the page needs to be shown again with what was typed; null when it needs nothing.</param>
    public static Task<IActionResult> Answer(
        this PageModel page, Result result, string? notice, Func<IActionResult> done, Func<Task>? again = null) =>
        page.Answer(result.Failure, notice, done, again);

    public static Task<IActionResult> Answer<T>(
        this PageModel page, Result<T> result, string? notice, Func<T, IActionResult> done, Func<Task>? again = null) =>
        page.Answer(result.Failure, notice, () => done(result.Value!), again);

    /// <summary>The form again, with what was typed and the sentences that are in the model state already.</summary>
    public static async Task<IActionResult> ShowAgain(this PageModel page, Func<Task>? again = null)
    {
        if (again is not null)
            await again();
        page.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return page.Page();
    }

    /// <summary>A page with several forms checks only the one that was sent: the others' values were not there to be right or wrong.</summary>
    public static void OnlyCheck(this PageModel page, string form)
    {
        foreach (var key in page.ModelState.Keys.Where(key => key != form && !key.StartsWith(form + ".", StringComparison.Ordinal)).ToList())
            page.ModelState.Remove(key);
    }

    /// <summary>Notes a failure in the model state (or says 404) without leaving the handler; null when there is none to answer.</summary>
    public static IActionResult? Note(this PageModel page, Failure? failure)
    {
        switch (failure)
        {
            case null:
                return null;
            case NotFound:
                return page.NotFound();
            case ChangedMeanwhile changed:
                page.ViewData[nameof(ChangedMeanwhile)] = changed;
                page.ModelState.AddModelError("", changed.Message);
                page.ModelState.Remove("Input.Version"); // the page loads the present one, so that saving again may win
                return null;
            case Invalid invalid:
                page.ModelState.AddModelError(FieldKey(page, invalid.Field), invalid.Message);
                return null;
            default:
                page.ModelState.AddModelError("", failure.Message);
                return null;
        }
    }

    private static async Task<IActionResult> Answer(
        this PageModel page, Failure? failure, string? notice, Func<IActionResult> done, Func<Task>? again)
    {
        if (failure is null)
        {
            if (notice is not null)
                page.Tell(notice);
            return done();
        }

        return page.Note(failure) ?? await page.ShowAgain(again);
    }

    /// <summary>
    /// Services name a field without the page's "Input." in front, nor the form or its part the field stands in (Payment.Amount,
    /// Input.Customer.Email); the model state needs them.
    /// </summary>
    private static string FieldKey(PageModel page, string field)
    {
        if (page.ModelState.ContainsKey(field))
            return field;
        if (page.ModelState.ContainsKey("Input." + field) || page.GetType().GetProperty("Input")?.PropertyType.GetProperty(field.Split('.', '[')[0]) is not null)
            return "Input." + field;
        var inParts = page.ModelState.Keys.Where(key => key.EndsWith("." + field, StringComparison.Ordinal)).ToList();
        return inParts.Count == 1 ? inParts[0] : field;
    }
}
