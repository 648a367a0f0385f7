namespace RepairShop.Services.Demo;

/// <summary>The clock of the invented past: stands where the loader puts it.</summary>
internal sealed class DemoClock : TimeProvider
{
    public DateTimeOffset Now { get; set; }

    public override DateTimeOffset GetUtcNow() => Now;
}
