using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Account;

public sealed class IndexModel(SignInService signIn, AccountService accounts) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Account { get; private set; } = null!;

    public async Task OnGetAsync()
    {
        await Load();
        Input.Name = Account.Name;
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(Load);
        var account = await signIn.Current(User);
        await accounts.Rename(account, Input.Name);
        await signIn.Renew(account);
        this.Tell("Your name is saved.");
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostElsewhereAsync()
    {
        await signIn.SignOutElsewhere(await signIn.Current(User));
        this.Tell("Every other session of yours ends within a minute.");
        return RedirectToPage();
    }

    private async Task Load()
    {
        var account = await signIn.Current(User);
        Account = new View(account.DisplayName, account.Email!, Roles.All.First(User.IsInRole));
    }

    public sealed class InputModel
    {
        [StringLength(100)]
        public string Name { get; set; } = "";
    }

    public sealed record View(string Name, string Email, string Role);
}
