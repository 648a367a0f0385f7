namespace RepairShop.Measurement.Signals.Finding;

/// <summary>Misuse of a rig is a bug of the caller.</summary>
internal static class RigCheck
{
    public static void Check(Rig rig, int channelCount)
    {
        var roles = rig.Roles.Take(channelCount).Where(role => role != ChannelRole.Unused).ToList();
        if (!roles.Any(IsLight)) throw new ArgumentException("The rig names no light channel of this recording.", nameof(rig));
        if (roles.Distinct().Count() != roles.Count) throw new ArgumentException("The rig names the same role for two channels.", nameof(rig));
        if (rig.ReferenceExposure < 1) throw new ArgumentException("Exposures are counted from 1.", nameof(rig));
        if (rig.CarriedOpenLevel is { } level && !(level.Value > 0 && double.IsFinite(level.Value)))
            throw new ArgumentException("A fully open level is above 0.", nameof(rig));
        if (!(rig.FrameWidthMm > 0 && double.IsFinite(rig.FrameWidthMm))) throw new ArgumentException("A frame's width is above 0.", nameof(rig));
        if (!(rig.PositionMm(ChannelRole.LightFirstEdge) < 0 && rig.PositionMm(ChannelRole.LightLastEdge) > 0))
            throw new ArgumentException("The first edge's sensor sits below 0, the last edge's above.", nameof(rig));
    }

    public static bool IsLight(ChannelRole role) => role is ChannelRole.Light or ChannelRole.LightFirstEdge or ChannelRole.LightLastEdge;
}
