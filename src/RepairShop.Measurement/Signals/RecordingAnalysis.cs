using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals;

/// <summary>Turns a light sensor's recording into figures. Pure: the same recording and rig give the same figures.</summary>
public static class RecordingAnalysis
{
    /// <summary>
    /// Changes whenever the same recording may give other figures. A stored figure carries it, so that a record says how it was made and old
    /// recordings can be analysed again.
    /// </summary>
    public const string Version = "2";

    /// <summary>Analyses a recording.</summary>
    /// <param name="recording">What was recorded; whatever is wrong with it is told in <see cref="AnalysisResult.Outcome"/>.</param>
    /// <param name="rig">How it was recorded.</param>
    /// <exception cref="ArgumentException">
    /// The rig names no light channel among the recording's channels, the same role twice, a reference below 1, or a frame or position out of range.
    /// </exception>
    public static AnalysisResult Analyse(Recording recording, Rig rig)
    {
        ArgumentNullException.ThrowIfNull(recording);
        ArgumentNullException.ThrowIfNull(rig);
        RigCheck.Check(rig, recording.ChannelCount);
        var warnings = new List<SignalWarning>();
        var lights = new List<LightChannel>();
        for (var channel = 0; channel < Math.Min(rig.Roles.Count, recording.ChannelCount); channel++)
            if (RigCheck.IsLight(rig.Roles[channel]))
                lights.Add(new LightAnalysis(recording, rig, channel, warnings).Run());
        var result = new AnalysisResult
        {
            Outcome = Outcome.NoExposure,
            SampleRateHz = recording.SampleRateHz,
            DurationSeconds = recording.DurationSeconds,
            Lights = lights,
            Warnings = warnings,
        };
        var contact = rig.Roles.Take(recording.ChannelCount).ToList().IndexOf(ChannelRole.FlashContact);
        return result with
        {
            Outcome = result.Main!.Outcome,
            FocalPlane = FocalPlaneAnalysis.Of(lights, rig),
            Flash = contact < 0 ? [] : FlashAnalysis.Of(recording.Channel(contact), recording.SampleRateHz, result.Main, rig.Flash),
        };
    }
}
