using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;
using RepairShop.Web.Access;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages;

/// <summary>An empty shop: whoever has the code from the console makes the owner's account.</summary>
public sealed class FirstStartModel(AccountService accounts, SignInService signIn, SignInLimit limit) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public async Task<IActionResult> OnGetAsync(CancellationToken ct) =>
        await accounts.HasOwner(ct) ? LocalRedirect("/") : Page();

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!limit.Allows(HttpContext, "first start"))
        {
            ModelState.AddModelError("", "Too many tries: wait a minute, then try again.");
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            return Page();
        }

        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var made = await accounts.CreateFirstOwner(Input.Code, new NewPerson(Input.Name, Input.Email, Roles.Owner), Input.Password, ct);
        if (made.IsDone)
            await signIn.SignInAsNew(made.Value);
        return await this.Answer(made, "You are the owner. Tell the book about your shop next.", _ => LocalRedirect("/shop"));
    }

    public sealed class InputModel
    {
        [Display(Name = "One-time code"), StringLength(60)]
        public string Code { get; set; } = "";

        [Display(Name = "Your name"), StringLength(100)]
        public string Name { get; set; } = "";

        [Display(Name = "E-mail"), EmailAddress, StringLength(200)]
        public string Email { get; set; } = "";

        [StringLength(200)]
        public string Password { get; set; } = "";

        [Display(Name = "Password again"), Compare(nameof(Password), ErrorMessage = "The two passwords differ: type the same twice.")]
        public string Again { get; set; } = "";
    }
}
