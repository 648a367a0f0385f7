using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Parts;
using RepairShop.Services.Parts;

namespace RepairShop.Web.Pages.Stock;

/// <summary>The form of one part, new or old.</summary>
public sealed class PartInput
{
    [StringLength(60)]
    public string? Number { get; set; }

    [StringLength(200)]
    public string? Name { get; set; }

    [StringLength(1000)]
    public string? Fits { get; set; }

    public Provenance Provenance { get; set; }

    public decimal Cost { get; set; }

    public decimal Price { get; set; }

    [StringLength(200)]
    public string? Place { get; set; }

    public decimal ReorderLevel { get; set; }

    public uint Version { get; set; }

    public PartTyped Typed() => new(Number ?? "", Name ?? "", Fits ?? "", Provenance, Cost, Price, Place ?? "", ReorderLevel, Version);

    public static PartInput Of(PartTyped typed) => new()
    {
        Number = typed.Number,
        Name = typed.Name,
        Fits = typed.Fits,
        Provenance = typed.Provenance,
        Cost = typed.Cost,
        Price = typed.Price,
        Place = typed.Place,
        ReorderLevel = typed.ReorderLevel,
        Version = typed.Version,
    };
}
