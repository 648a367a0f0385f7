using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Services.Accounts;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

[BindProperties(SupportsGet = true)]
public sealed class AuditModel(AuditService audit, AccountService accounts, ShopFace face) : PageModel
{
    public string? Entity { get; set; }

    public Guid? By { get; set; }

    public DateOnly? From { get; set; }

    public DateOnly? Until { get; set; }

    public long? Before { get; set; }

    [BindNever]
    public AuditPage Entries { get; private set; } = new([], null);

    [BindNever]
    public IReadOnlyList<SelectListItem> EntityChoices { get; private set; } = [];

    [BindNever]
    public IReadOnlyList<SelectListItem> PeopleChoices { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken ct)
    {
        var anything = new SelectListItem("anything", "");
        EntityChoices = [anything, .. (await audit.Entities(ct)).Select(name => new SelectListItem(FieldText.Words(name), name))];
        PeopleChoices = [new SelectListItem("anybody", ""), .. (await accounts.List(ct)).Select(person => new SelectListItem(person.Name, person.Id.ToString()))];
        Entries = await audit.Read(new AuditFilter(Entity, By, face.StartOf(From), face.StartOf(Until == DateOnly.MaxValue ? null : Until?.AddDays(1))), Before, ct);
    }
}
