using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Ledger;
using RepairShop.Services.Ledger;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Ledger;

/// <summary>The accountant's numbers for the book's accounts.</summary>
public sealed class AccountsModel(AccountNameService names) : PageModel
{
    [BindProperty]
    public List<InputModel> Input { get; set; } = [];

    public IReadOnlyList<AccountName> Usual => AccountChart.Usual;

    public async Task OnGetAsync(CancellationToken cancel) =>
        Input = [.. (await names.ListAsync(cancel)).Select(name => new InputModel { Account = name.Account, Number = name.Number, Name = name.Name })];

    public async Task<IActionResult> OnPostAsync(CancellationToken cancel)
    {
        if (!Input.Select(row => row.Account).SequenceEqual(Usual.Select(row => row.Account)))
            return BadRequest();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var typed = Input.ConvertAll(row => new AccountName { Account = row.Account, Number = row.Number ?? "", Name = row.Name ?? "" });
        return await this.Answer(await names.SaveAsync(typed, cancel), "The accounts are saved.", () => RedirectToPage());
    }

    public sealed class InputModel
    {
        public LedgerAccount Account { get; set; }

        [StringLength(20)]
        public string? Number { get; set; }

        [StringLength(80)]
        public string? Name { get; set; }
    }
}
