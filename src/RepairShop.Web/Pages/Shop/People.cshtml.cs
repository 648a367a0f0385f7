using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class PeopleModel(AccountService accounts) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IReadOnlyList<PersonRow> People { get; private set; } = [];

    /// <summary>A password just made, shown in this answer only and kept nowhere: hence no redirect after this post.</summary>
    public Handover? Handover { get; private set; }

    public IEnumerable<SelectListItem> RoleChoices => Roles.All.Select(role => new SelectListItem(role, role));

    public Task OnGetAsync(CancellationToken ct) => Load(ct);

    public async Task<IActionResult> OnPostAddAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => Load(ct));
        return await Show(await accounts.Add(new NewPerson(Input.Name, Input.Email, Input.Role), ct), ct);
    }

    public async Task<IActionResult> OnPostResetAsync(Guid id, CancellationToken ct) => await Show(await accounts.Reset(id), ct);

    public async Task<IActionResult> OnPostRoleAsync(Guid id, string role, CancellationToken ct) =>
        await AnswerList(await accounts.SetRole(id, role), "The role is changed.", ct);

    public async Task<IActionResult> OnPostDeactivateAsync(Guid id, CancellationToken ct) =>
        await AnswerList(await accounts.SetActive(id, false), "The account is deactivated; open sessions end within a minute.", ct);

    public async Task<IActionResult> OnPostActivateAsync(Guid id, CancellationToken ct) =>
        await AnswerList(await accounts.SetActive(id, true), "The account is active again.", ct);

    private async Task<IActionResult> Show(Result<Handover> made, CancellationToken ct)
    {
        if (made.IsDone)
        {
            ModelState.Clear();
            Input = new InputModel();
            await Load(ct);
            Handover = made.Value;
            return Page();
        }

        return await this.Answer(made, null, _ => Page(), () => Load(ct));
    }

    private Task<IActionResult> AnswerList(Result result, string notice, CancellationToken ct)
    {
        ModelState.Clear(); // the form for a new person was not sent
        return this.Answer(result, notice, () => RedirectToPage(), () => Load(ct));
    }

    private async Task Load(CancellationToken ct) => People = await accounts.List(ct);

    public sealed class InputModel
    {
        [StringLength(100)]
        public string Name { get; set; } = "";

        [Display(Name = "E-mail"), EmailAddress, StringLength(200)]
        public string Email { get; set; } = "";

        public string Role { get; set; } = Roles.Bench;
    }
}
