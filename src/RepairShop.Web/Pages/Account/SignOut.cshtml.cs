using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;

namespace RepairShop.Web.Pages.Account;

public sealed class SignOutModel(SignInService signIn) : PageModel
{
    public async Task<IActionResult> OnPostAsync()
    {
        await signIn.SignOut();
        return RedirectToPage("/Account/SignIn");
    }
}
