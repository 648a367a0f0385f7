using RepairShop.Domain.Results;

namespace RepairShop.Domain.Tools;

/// <summary>What a tool and a mount must hold to stand in the register.</summary>
public static class ToolRules
{
    public static Failure? WhyNot(Tool tool)
    {
        ArgumentNullException.ThrowIfNull(tool);
        if (string.IsNullOrWhiteSpace(tool.Name))
            return new ToolNameMissing();
        return tool.Kind == ToolKind.RingSpanner ? tool.Spanner.WhyNot()
            : tool.Spanner == new SpannerMeasures() ? null
            : new OnlyRingSpannersHavePins();
    }

    public static Failure? WhyNot(Mount mount)
    {
        ArgumentNullException.ThrowIfNull(mount);
        return string.IsNullOrWhiteSpace(mount.Camera) ? new MountCameraMissing()
            : string.IsNullOrWhiteSpace(mount.Name) ? new MountNameMissing()
            : mount.Measures.WhyNot();
    }
}
