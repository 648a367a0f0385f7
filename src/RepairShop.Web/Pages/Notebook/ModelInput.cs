using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>The form of a model's head, new or old.</summary>
public sealed class ModelInput
{
    [StringLength(NotebookRules.NameLength)]
    public string? Maker { get; set; }

    [StringLength(NotebookRules.NameLength)]
    public string? Model { get; set; }

    [Display(Name = "Marked speeds"), StringLength(400)]
    public string? MarkedSpeeds { get; set; }

    [StringLength(NotebookRules.TextLength), DataType(DataType.MultilineText)]
    public string? Notes { get; set; }

    public uint Version { get; set; }

    public Guid Once { get; set; } = Guid.CreateVersion7();

    public ModelTyped Typed() => new(Maker ?? "", Model ?? "", MarkedSpeeds ?? "", Notes ?? "", Version);

    public static ModelInput Of(ModelTyped typed) => new()
    {
        Maker = typed.Maker,
        Model = typed.Model,
        MarkedSpeeds = typed.MarkedSpeeds,
        Notes = typed.Notes,
        Version = typed.Version,
    };
}
