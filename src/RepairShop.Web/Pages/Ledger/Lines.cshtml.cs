using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Ledger;
using RepairShop.Services.Ledger;

namespace RepairShop.Web.Pages.Ledger;

/// <summary>The lines of a month, of one account or all, each with its paper.</summary>
public sealed class LinesModel(LedgerService ledger, AccountNameService names) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Month { get; set; }

    [BindProperty(SupportsGet = true)]
    public LedgerAccount? Account { get; set; }

    [BindProperty(SupportsGet = true)]
    public long? After { get; set; }

    public DateOnly From { get; private set; }

    public LedgerPage Lines { get; private set; } = new([], null);

    public IReadOnlyDictionary<LedgerAccount, AccountName> Names { get; private set; } = new Dictionary<LedgerAccount, AccountName>();

    public async Task OnGetAsync(CancellationToken cancel)
    {
        From = MonthText.Read(Month) ?? await ledger.ThisMonthAsync(cancel);
        Names = (await names.ListAsync(cancel)).ToDictionary(name => name.Account);
        Lines = await ledger.LinesAsync(From, From.AddMonths(1), Account, After, cancel);
    }
}
