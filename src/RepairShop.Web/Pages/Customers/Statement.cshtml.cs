using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Invoices;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Customers;

/// <summary>A customer's account over some days, as it would be printed, and the statements made before.</summary>
public sealed class StatementModel(StatementService statements, ShopFace face) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty(SupportsGet = true), Display(Name = "From")]
    public DateOnly? From { get; set; }

    [BindProperty(SupportsGet = true), Display(Name = "To")]
    public DateOnly? Until { get; set; }

    public StatementSheet? Shown { get; private set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var shown = await statements.ShowAsync(Id, From, Until, cancel);
        Show(shown.Value);
        return await PageResults.Answer(this, shown, null, _ => Page());
    }

    public Task<IActionResult> OnPostMakeAsync(CancellationToken cancel) => MakeAsync(false, cancel);

    public Task<IActionResult> OnPostMailAsync(CancellationToken cancel) => MakeAsync(true, cancel);

    private async Task<IActionResult> MakeAsync(bool byMail, CancellationToken cancel)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var made = await statements.MakeAsync(Id, From ?? face.Today, Until ?? face.Today, byMail, cancel);
        return await PageResults.Answer(
            this, made, made.IsDone ? PaperNotice.Of(made.Value, byMail ? "is made and goes out by e-mail" : "is made") : null,
            _ => RedirectToPage(new { Id, From = FieldText.Of(From), Until = FieldText.Of(Until) }),
            async () => Show((await statements.ShowAsync(Id, From, Until, cancel)).Value));
    }

    private void Show(StatementSheet? sheet)
    {
        Shown = sheet;
        if (sheet is not null)
            (From, Until) = (sheet.Facts.From, sheet.Facts.Until);
    }
}
