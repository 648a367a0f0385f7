namespace RepairShop.Testing;

/// <summary>A clock that stands where a test puts it.</summary>
public sealed class SetClock(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public void Forward(TimeSpan by) => Now += by;

    public override DateTimeOffset GetUtcNow() => Now;
}
