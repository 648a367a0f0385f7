using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Estimates;
using RepairShop.Services.Shop;
using RepairShop.Web.Access;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Answer;

/// <summary>For the customer, without signing in: the offer, and one answer to it. Whatever is wrong with a link, the page says the same.</summary>
public sealed class IndexModel(AnswerLinkService links, AnswerLimit limit, ShopFace face) : PageModel
{
    [FromRoute]
    public string Token { get; set; } = "";

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public EstimateFacts? Facts { get; private set; }

    public string Money(decimal amount) => face.Money(amount, Facts!.Currency);

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        await OpenAsync(cancel);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(EstimateAnswer? answer, CancellationToken cancel)
    {
        await OpenAsync(cancel);
        if (Facts is null)
            return Page();
        if (answer is not { } chosen || ModelState["answer"]?.Errors.Count > 0 || !Enum.IsDefined(chosen))
            return await NotChosenAsync();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var given = await links.AnswerAsync(Token, chosen, Input.Name ?? "", Input.Remark ?? "", cancel);
        if (given.IsDone)
            return RedirectToPage("Thanks", new { answer = chosen });
        if (given.Failure is AnswererMissing missing)
            ModelState.AddModelError("Input.Name", missing.Message.Replace("Who answered", "Your name", StringComparison.Ordinal));
        else
            Facts = null;
        Response.StatusCode = Facts is null ? StatusCodes.Status404NotFound : StatusCodes.Status422UnprocessableEntity;
        return Page();
    }

    private Task<IActionResult> NotChosenAsync()
    {
        ModelState.Remove("answer");
        ModelState.AddModelError("", "Say whether you approve or decline: press one of the two buttons.");
        return this.ShowAgain();
    }

    private async Task OpenAsync(CancellationToken cancel)
    {
        Response.Headers.CacheControl = "no-store";
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        if (!limit.Allows(HttpContext))
        {
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            return;
        }
        Facts = (await links.OpenAsync(Token, cancel)).Value;
        if (Facts is null)
            Response.StatusCode = StatusCodes.Status404NotFound;
    }

    public sealed class InputModel
    {
        [Display(Name = "Your name"), StringLength(200)]
        public string? Name { get; set; }

        [Display(Name = "Anything you want to add"), StringLength(2000)]
        public string? Remark { get; set; }
    }
}
