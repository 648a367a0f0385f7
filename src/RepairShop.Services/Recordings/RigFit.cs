using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>Whether a rig fits a recording, as a rule's "no"; the analysis takes a rig that does not fit for a bug.</summary>
public static class RigFit
{
    public static Failure? WhyNot(Rig rig, int channels)
    {
        ArgumentNullException.ThrowIfNull(rig);
        var roles = rig.Roles.Take(channels).Where(role => role != ChannelRole.Unused).ToList();
        if (roles.Count < rig.Roles.Count(role => role != ChannelRole.Unused))
            return new ChannelsMissing(rig.Roles.Count, channels);
        if (!roles.Any(role => role is ChannelRole.Light or ChannelRole.LightFirstEdge or ChannelRole.LightLastEdge))
            return new NoLightChannel();
        return roles.Distinct().Count() < roles.Count ? new ChannelNamedTwice() : rig.ReferenceExposure < 1 ? new ReferenceOutOfRange() : null;
    }
}
