using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class ShareModel(NotebookService pages, NotebookFileService files) : PageModel
{
    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    public IReadOnlyList<PrivateWord> PrivateWords { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct) => await LoadAsync(id, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(Guid id, bool photos, CancellationToken ct)
    {
        var written = await files.WriteAsync(id, photos, ct);
        if (written.IsDone)
            return File(written.Value.Bytes, "application/json", written.Value.FileName);
        return await this.Answer(written, null, _ => RedirectToPage(), () => LoadAsync(id, ct));
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        (Id, Name) = (id, found.Value?.Name ?? "");
        PrivateWords = await files.PrivateWordsAsync(id, ct);
        return found.IsDone;
    }
}
