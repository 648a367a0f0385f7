using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>A file is looked at first and taken only after its changes were shown.</summary>
public sealed class ImportModel(NotebookImportService import) : PageModel
{
    public ImportPreview? Preview { get; private set; }

    public async Task<IActionResult> OnPostAsync(IFormFile? file, CancellationToken ct)
    {
        ModelState.Clear();
        if (file is null or { Length: 0 })
            return this.Note(new NoNotebookFileChosen()) ?? await this.ShowAgain();
        var bytes = (await Uploads.ReadAsync([file], ct))[0].Bytes;
        var looked = await import.LookAsync(bytes, ct);
        if (this.Note(looked.Failure) is { } refused)
            return refused;
        Preview = looked.Value;
        return looked.IsDone ? Page() : await this.ShowAgain();
    }

    public async Task<IActionResult> OnPostTakeAsync(string? key, CancellationToken ct)
    {
        ModelState.Clear();
        return await this.Answer(await import.TakeAsync(key ?? "", ct), "The file is taken in.", id => RedirectToPage("Model", new { id }));
    }
}
