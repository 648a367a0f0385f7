using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;
using RepairShop.Web.Access;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Account;

public sealed class PasswordModel(SignInService signIn, AccountService accounts, SignInLimit limit) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public async Task<IActionResult> OnPostAsync()
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var account = await signIn.Current(User);
        if (!limit.Allows(HttpContext, $"password of {account.Id}"))
        {
            ModelState.AddModelError("", "Too many tries: wait a minute, then try again.");
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            return Page();
        }

        var changed = await accounts.ChangePassword(account, Input.CurrentPassword, Input.Password);
        if (changed.IsDone)
            await signIn.Renew(account);
        return await this.Answer(changed, "Your password is changed.", () => RedirectToPage("Index"));
    }

    public sealed class InputModel
    {
        [Display(Name = "Present password"), StringLength(200)]
        public string CurrentPassword { get; set; } = "";

        [Display(Name = "New password"), StringLength(200)]
        public string Password { get; set; } = "";

        [Display(Name = "New password again"), Compare(nameof(Password), ErrorMessage = "The two new passwords differ: type the same twice.")]
        public string Again { get; set; } = "";
    }
}
