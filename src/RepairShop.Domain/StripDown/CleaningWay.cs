namespace RepairShop.Domain.StripDown;

/// <summary>One way of cleaning on the shop's own list. A retired one stays on the parts that were cleaned with it.</summary>
public sealed class CleaningWay
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Name { get; set; } = "";

    public SolventCaution Cautions { get; set; }

    public int Position { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }
}

/// <summary>What a way of cleaning can do to people and parts. Common practice; the product's safety sheet says more.</summary>
[Flags]
public enum SolventCaution
{
    None = 0,
    Flammable = 1,
    HarmfulVapour = 2,
    AttacksFinish = 4,
}
