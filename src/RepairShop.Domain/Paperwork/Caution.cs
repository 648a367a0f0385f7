namespace RepairShop.Domain.Paperwork;

/// <summary>Where the work can hurt. The paper prints a sentence for each, and "follow the product's safety sheet and local rules".</summary>
public enum Caution
{
    FlammableSolvent,
    FlashCapacitor,
    MercuryCell,
    ThoriatedGlass,
    SeleniumCell,
    SpringUnderTension,
}
