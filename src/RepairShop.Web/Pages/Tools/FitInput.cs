using RepairShop.Domain.Results;
using RepairShop.Measurement.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

/// <summary>A spanner and the mount it is held against, as typed.</summary>
public sealed class FitInput
{
    public LengthUnit Unit { get; set; }

    public SpannerInput Spanner { get; set; } = new();

    public MountFields Mount { get; set; } = new();

    /// <summary>Everything typed, as it stands in an address.</summary>
    public IEnumerable<KeyValuePair<string, string?>> Fields() =>
        new (string Name, object Part)[] { ("Spanner", Spanner), ("Mount", Mount) }
            .SelectMany(one => one.Part.GetType().GetProperties()
                .Select(field => KeyValuePair.Create($"Input.{one.Name}.{field.Name}", FieldText.Of(field.GetValue(one.Part)))))
            .Prepend(KeyValuePair.Create("Input.Unit", (string?)Unit.ToString()));

    public Result<RingSpannerFit> Work()
    {
        var spanner = Spanner.Typed(Unit).Whole();
        if (!spanner.IsDone)
            return spanner.Failure;
        var mount = Mount.Typed(Unit).Whole();
        return mount.IsDone ? new RingSpannerFit(spanner.Value, mount.Value) : mount.Failure;
    }
}
