using System.Globalization;
using System.Text.Json;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>What the analysis says, in words for people and as names for programs.</summary>
public static class SignalWords
{
    /// <summary>NotAShutter → notAShutter, as JSON writes names.</summary>
    public static string Name(string pascal) => JsonNamingPolicy.CamelCase.ConvertName(pascal);

    /// <summary>Why there are no figures and what to do about it; empty for <see cref="Outcome.Ok"/>.</summary>
    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.Ok => "",
        Outcome.NoSamples => "The recording has no samples: record again.",
        Outcome.TooShort => "The recording is too short: leave a moment of quiet before and after the release.",
        Outcome.NotFinite => "The recording holds values that are no numbers: record again.",
        Outcome.Silent => "The recording is one constant value: check that the sensor is plugged in and the input is not muted.",
        Outcome.NoExposure => "No light came: check the lamp and the sensor, and release the shutter while recording.",
        Outcome.HumOnly => "There is only mains hum: check the cable, keep it away from mains leads, and release the shutter.",
        Outcome.NotAShutter => "Something sounds, but nothing opens and closes: check that the light sensor is the input, not a microphone.",
        Outcome.Clipped => "The input is overdriven: turn the input down or move the lamp away.",
        Outcome.TooLittleLight => "The light hardly rises above the noise: move the lamp closer or turn the input up.",
        Outcome.DroppedBlock => "The input lost or repeated blocks of sound: close other programs and record again.",
        Outcome.TooClose => "The exposures follow each other too closely: leave half a second between them.",
        Outcome.CutOff => "The recording begins or ends in the middle of the exposure: leave a moment of quiet on both sides.",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "An outcome without a sentence."),
    };

    /// <summary>One short sentence.</summary>
    public static string Of(SignalWarning warning)
    {
        ArgumentNullException.ThrowIfNull(warning);
        return warning switch
        {
            Clipping clipping => $"Clipping at {At(clipping.AtSeconds)}: {clipping.Samples} samples stand at the ceiling. Turn the input down.",
            DroppedBlock { Fault: BlockFault.Jump } jump => $"The signal jumps at {At(jump.AtSeconds)}, as if a block of sound were missing.",
            DroppedBlock block => $"A block of sound was {(block.Fault == BlockFault.Repeat ? "repeated" : "lost or put in")} at {At(block.AtSeconds)}{(block.LengthSeconds is { } length ? $", {Number(length * 1000)} ms long" : "")}: times across it are wrong.",
            LampRipple { IsStrong: true } strong => $"The lamp flickers at {strong.FrequencyHz:0} Hz by ±{Number(strong.Depth * 100)} %: more than the ±5 % that can be trusted, use a lamp on direct current.",
            LampRipple ripple => $"The lamp flickers at {ripple.FrequencyHz:0} Hz by ±{Number(ripple.Depth * 100)} %.",
            MainsHum hum => $"Mains hum of {Number(hum.FrequencyHz)} Hz, {Number(hum.Share * 100)} % of the light, was found and taken out.",
            LittleLight little => $"Little light at exposure {little.Exposure}: {Number(little.SignalToNoiseDecibels)} dB above the noise.",
            TooClose close => $"Two exposures at {At(close.AtSeconds)} are only {Number(close.GapSeconds * 1000)} ms apart.",
            CutOff cut => $"An exposure at {At(cut.AtSeconds)} is cut off by the recording’s end and left out.",
            Disturbance noise => $"Something at {At(noise.AtSeconds)} is neither an exposure nor noise and was left out.",
            ReferenceMissing missing => $"Exposure {missing.Exposure}, named as reference, is not there or never rests open.",
            _ => warning.GetType().Name,
        };
    }

    /// <summary>What the browser's own count of lost blocks means; null when it lost none.</summary>
    public static NamedText? OfLostBlocks(int blocks) => blocks == 0
        ? null
        : new("lostBlock", $"The browser lost {blocks} {(blocks == 1 ? "block" : "blocks")} of sound while recording: the times may be wrong.");

    public static string Of(ExposureRemark remark) => remark switch
    {
        ExposureRemark.Bounce => "bounce",
        ExposureRemark.NeverRestsOpen => "never rests open",
        ExposureRemark.LittleLight => "little light",
        ExposureRemark.StrongRipple => "lamp flickers",
        ExposureRemark.NearClipping => "near clipping",
        ExposureRemark.DroopBeyondHalf => "long for this input",
        _ => remark.ToString(),
    };

    private static string At(double seconds) => seconds.ToString("0.000", CultureInfo.CurrentCulture) + " s";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.CurrentCulture);
}
