using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Post;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Post;

/// <summary>What became of every letter; send one again.</summary>
public sealed class IndexModel(PostService post) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid? Before { get; set; }

    [BindProperty(SupportsGet = true)]
    public bool Open { get; set; }

    public MailPage Letters { get; private set; } = new([], null, false);

    public Task OnGetAsync(CancellationToken cancel) => LoadAsync(cancel);

    public async Task<IActionResult> OnPostAgainAsync(Guid id, CancellationToken cancel) => await this.Answer(
        await post.SendAgainAsync(id, cancel), "The letter is written again and goes out in a moment.", () => RedirectToPage(), () => LoadAsync(cancel));

    private async Task LoadAsync(CancellationToken cancel) => Letters = await post.ListAsync(Before, Open, cancel);
}
