using System.ComponentModel.DataAnnotations;
using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Measurement.Gauges;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>The form of one entry; which of its fields are shown depends on the kind.</summary>
public sealed class EntryInput : IValidatableObject
{
    public EntryKind Kind { get; set; }

    [StringLength(NotebookRules.NameLength)]
    public string? Title { get; set; }

    [StringLength(NotebookRules.TextLength)]
    public string? Text { get; set; }

    [StringLength(NotebookRules.LinkLength)]
    public string? Link { get; set; }

    public Caution? Caution { get; set; }

    [StringLength(NotebookRules.UnitLength)]
    public string? Unit { get; set; }

    [Display(Name = "Lower limit"), StringLength(40)]
    public string? Low { get; set; }

    [Display(Name = "Upper limit"), StringLength(40)]
    public string? High { get; set; }

    public uint Version { get; set; }

    public Guid Once { get; set; } = Guid.CreateVersion7();

    public static IEnumerable<SelectListItem> Cautions { get; } =
        [new("In my own words", ""), .. Enum.GetValues<Caution>().Select(caution => new SelectListItem(EntryText.Upper(EntryWords.Of(caution)), caution.ToString()))];

    private string KeptUnit => GaugeLimits.UnitOf(Unit ?? "");

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        foreach (var (field, text) in new[] { (nameof(Low), Low), (nameof(High), High) })
        {
            if (Limit(text) is null && WhyNot(text) is { } sentence)
                yield return new ValidationResult(sentence, [field]);
        }
    }

    public EntryTyped Typed() => new(Kind, Title ?? "", Text ?? "", Link ?? "", Caution, KeptUnit, Limit(Low), Limit(High), Version);

    public static EntryInput Of(EntryTyped typed) => new()
    {
        Kind = typed.Kind,
        Title = typed.Title,
        Text = typed.Text,
        Link = typed.Link,
        Caution = typed.Caution,
        Unit = typed.Unit,
        Low = typed.Low is { } low ? GaugeLimits.One(typed.Unit, low, CultureInfo.CurrentCulture) : null,
        High = typed.High is { } high ? GaugeLimits.One(typed.Unit, high, CultureInfo.CurrentCulture) : null,
        Version = typed.Version,
    };

    private double? Limit(string? text) => string.IsNullOrWhiteSpace(text) ? null
        : KeptUnit == GaugeLimits.Clock ? ClockPosition.Read(text)?.Hours
        : (double?)NumberText.Read(text, CultureInfo.CurrentCulture).Value;

    private string? WhyNot(string? text) => string.IsNullOrWhiteSpace(text) ? null
        : KeptUnit == GaugeLimits.Clock ? $"“{text}” is not a place on a clock's face: write hours and minutes, such as 2:30."
        : NumberText.Read(text, CultureInfo.CurrentCulture).Refusal;
}
