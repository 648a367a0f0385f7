using System.ComponentModel.DataAnnotations;
using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Services.Banking;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Banking;

/// <summary>A bank's table is shown, and a person says what its columns mean.</summary>
public sealed class ColumnsModel(StatementImportService import) : PageModel
{
    public static IReadOnlyList<SelectListItem> Decimals { get; } = [new("with a point, 72.60", "False"), new("with a comma, 72,60", "True")];

    public static IReadOnlyList<SelectListItem> Orders { get; } = [new("day first, or year first", "False"), new("month first", "True")];

    [BindProperty(SupportsGet = true)]
    public string? Key { get; set; }

    public InputModel Input { get; set; } = new();

    public ColumnsAsked Asked { get; private set; } = null!;

    public IEnumerable<SelectListItem> Choices(int? chosen) =>
        Asked.Head.Select((name, i) => new SelectListItem(name, i.ToString(CultureInfo.InvariantCulture), i == chosen)).Prepend(new SelectListItem("none", "", chosen is null));

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        if (!await LoadAsync(ct))
            return RedirectToPage("Index");
        Input = InputModel.Of(Asked.Guess, Asked.Account, TempData[IndexModel.FileNameKey] as string ?? "table.csv");
        return Page();
    }

    public async Task<IActionResult> OnPostAsync([Bind(Prefix = "Input")] InputModel input, CancellationToken ct)
    {
        Input = input;
        if (!await LoadAsync(ct))
            return RedirectToPage("Index");
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var taken = await import.TakeAsync(Key!, input.FileName ?? "", input.Columns(), input.Account ?? "", ct);
        return await this.Answer(taken, "The statement is read in. Nothing is booked yet.", done => RedirectToPage("Statement", new { done.Id }));
    }

    private async Task<bool> LoadAsync(CancellationToken ct)
    {
        var asked = await import.ColumnsAsync(Key ?? "", ct);
        if (asked.IsDone)
            Asked = asked.Value;
        return asked.IsDone;
    }

    public sealed class InputModel
    {
        [StringLength(200)]
        public string? FileName { get; set; }

        [StringLength(40)]
        public string? Account { get; set; }

        public int? Date { get; set; }

        public int? Valued { get; set; }

        public int? Amount { get; set; }

        public int? MoneyIn { get; set; }

        public int? MoneyOut { get; set; }

        public int? Direction { get; set; }

        public int? Currency { get; set; }

        public int? Name { get; set; }

        public int? Iban { get; set; }

        public int? Text { get; set; }

        public int? Reference { get; set; }

        public int? BankReference { get; set; }

        public bool DecimalComma { get; set; }

        public bool MonthFirst { get; set; }

        public static InputModel Of(StatementColumns columns, string account, string fileName) => new()
        {
            FileName = fileName,
            Account = account,
            Date = columns.Date,
            Valued = columns.Valued,
            Amount = columns.Amount,
            MoneyIn = columns.MoneyIn,
            MoneyOut = columns.MoneyOut,
            Direction = columns.Direction,
            Currency = columns.Currency,
            Name = columns.Name,
            Iban = columns.Iban,
            Text = columns.Text,
            Reference = columns.Reference,
            BankReference = columns.BankReference,
            DecimalComma = columns.DecimalComma,
            MonthFirst = columns.MonthFirst,
        };

        public StatementColumns Columns() => new()
        {
            Date = Date,
            Valued = Valued,
            Amount = Amount,
            MoneyIn = MoneyIn,
            MoneyOut = MoneyOut,
            Direction = Direction,
            Currency = Currency,
            Name = Name,
            Iban = Iban,
            Text = Text,
            Reference = Reference,
            BankReference = BankReference,
            DecimalComma = DecimalComma,
            MonthFirst = MonthFirst,
        };
    }
}
