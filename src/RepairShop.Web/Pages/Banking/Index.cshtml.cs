using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Banking;
using RepairShop.Services.Banking;
using RepairShop.Services.Database;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Banking;

/// <summary>All statements, and where a bank's file comes in.</summary>
public sealed class IndexModel(StatementImportService import, BankReadService reader) : PageModel
{
    /// <summary>Carries the file's name past the choice of columns.</summary>
    internal const string FileNameKey = "StatementFileName";

    [BindProperty(SupportsGet = true)]
    public string? After { get; set; }

    public InputModel Input { get; set; } = new();

    public ListPage<StatementRow> Statements { get; private set; } = null!;

    public Task OnGetAsync(CancellationToken ct) => LoadAsync(ct);

    public async Task<IActionResult> OnPostAsync([Bind(Prefix = "Input")] InputModel input, CancellationToken ct)
    {
        Input = input;
        ModelState.Clear();
        if (input.File is not { Length: > 0 and <= StatementImportService.MostBytes } file)
        {
            this.Note(input.File is { Length: > 0 } large ? new StatementTooLarge(large.Length) : input.File is null ? new NoStatementChosen() : new StatementEmpty());
            return await this.ShowAgain(() => LoadAsync(ct));
        }

        var sent = await import.SendAsync(Path.GetFileName(file.FileName), (await Uploads.ReadAsync([file], ct))[0].Bytes, ct);
        return await this.Answer(sent, null, done => Next(done, Path.GetFileName(file.FileName)), () => LoadAsync(ct));
    }

    private RedirectToPageResult Next(StatementSent sent, string fileName)
    {
        if (sent.Kept is not { } kept)
        {
            TempData[FileNameKey] = fileName;
            return RedirectToPage("Columns", new { key = sent.ColumnsKey });
        }

        this.Tell(kept.WasHere ? "This very file was read in before: here it is." : "The statement is read in. Nothing is booked yet.");
        return RedirectToPage("Statement", new { kept.Id });
    }

    private async Task LoadAsync(CancellationToken ct) => Statements = await reader.ListAsync(After, ct);

    public sealed class InputModel
    {
        public IFormFile? File { get; set; }
    }
}
