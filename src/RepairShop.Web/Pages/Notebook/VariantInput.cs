using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>The form of one variant, new or old.</summary>
public sealed class VariantInput
{
    [StringLength(NotebookRules.NameLength)]
    public string? Name { get; set; }

    [StringLength(NotebookRules.TextLength), DataType(DataType.MultilineText)]
    public string? Traits { get; set; }

    [StringLength(NotebookRules.TextLength), DataType(DataType.MultilineText)]
    public string? Note { get; set; }

    public uint Version { get; set; }

    public Guid Once { get; set; } = Guid.CreateVersion7();

    public VariantTyped Typed() => new(Name ?? "", Traits ?? "", Note ?? "", Version);

    public static VariantInput Of(VariantTyped typed) =>
        new() { Name = typed.Name, Traits = typed.Traits, Note = typed.Note, Version = typed.Version };
}
