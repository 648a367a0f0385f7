using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Post;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class LetterModel(MailTextService letters) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public MailKind Kind { get; set; }

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IReadOnlyList<string> Placeholders => MailTemplate.Known(Kind);

    public MailPreview? Preview { get; private set; }

    private MailTextRow Typed => new(Kind, Input.Subject, Input.Body, Input.Version);

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid || await letters.Find(Kind, ct) is not { } letter)
            return NotFound();
        Input = new InputModel { Subject = letter.Subject, Body = letter.Body, Version = letter.Version };
        Preview = letters.Preview(letter).Value;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(await letters.Save(Typed, ct), "The letter is saved.", () => RedirectToPage(new { Kind }), async () =>
            Input.Version = (await letters.Find(Kind, ct))?.Version ?? 0);
    }

    /// <summary>Saves nothing.</summary>
    public async Task<IActionResult> OnPostPreviewAsync()
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var preview = letters.Preview(Typed);
        Preview = preview.Value;
        return await this.Answer(preview, null, _ => Page());
    }

    public sealed class InputModel
    {
        [StringLength(300)]
        public string Subject { get; set; } = "";

        [Display(Name = "Text"), StringLength(8000)]
        public string Body { get; set; } = "";

        public uint Version { get; set; }
    }
}
