using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Accounts;
using RepairShop.Web.Access;
using RepairShop.Web.Forms;
using RepairShop.Web.KeptText;

namespace RepairShop.Web.Pages.Account;

public sealed class SignInModel(SignInService signIn, SignInLimit limit, KeptForms keptForms) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    /// <summary>Where to go afterwards; only an address of this host is followed.</summary>
    [BindProperty(SupportsGet = true, Name = "to")]
    public string? To { get; set; }

    /// <summary>A form that was sent without being signed in, encrypted; see <see cref="KeptForms"/>.</summary>
    [BindProperty(Name = "kept")]
    public string? Kept { get; set; }

    public IActionResult OnGet()
    {
        Kept = HttpContext.Items[KeptForms.Item] as string;
        return User.Identity?.IsAuthenticated == true ? Onward() : Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!limit.Allows(HttpContext, Input.Email))
        {
            ModelState.AddModelError("", "Too many tries from here: wait a minute, then try again.");
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            return Page();
        }

        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var answer = await signIn.SignIn(Input.Email, Input.Password, Input.Remember);
        if (!answer.IsDone)
            return await this.Answer(answer, null, _ => Onward());
        HttpContext.User = answer.Value; // the page that follows in this answer is this person's
        if (keptForms.Unprotect(Kept) is not { } form)
            return Onward();
        if (form.IsFor(answer.Value))
            return KeptForms.Show(form);
        this.Tell("What was typed here belongs to somebody else, and was put away.");
        return Onward();
    }

    private LocalRedirectResult Onward() => LocalRedirect(Url.IsLocalUrl(To) ? To : "/");

    public sealed class InputModel
    {
        [Display(Name = "E-mail"), StringLength(256)]
        public string Email { get; set; } = "";

        [StringLength(200)]
        public string Password { get; set; } = "";

        [Display(Name = "Stay signed in on this device")]
        public bool Remember { get; set; }
    }
}
