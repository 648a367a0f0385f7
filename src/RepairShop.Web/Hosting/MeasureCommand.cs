using System.Globalization;
using System.Text;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.Recordings;

namespace RepairShop.Web.Hosting;

/// <summary><c>measure FILE...</c>: figures of recordings on the console; no database, no data folder, no server.</summary>
internal static class MeasureCommand
{
    private const int Refused = 2;

    /// <returns>0 when every file gave a figure, else 2.</returns>
    public static int Run(IReadOnlyList<string> args)
    {
        var read = MeasureOptions.Read(args);
        if (!read.IsDone)
        {
            Console.Error.WriteLine(read.Failure.Message);
            return Refused;
        }

        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        var options = read.Value;
        var files = options.Files.Select(file => MeasureFiles.Measure(file, options.Rig, options.Marked)).ToList();
        Console.Out.WriteLine(options.Json ? MeasuredFile.Write(files) : string.Join('\n', files.Select(Text)));
        return files.TrueForAll(file => file.Outcome == "ok" && file.Exposures.Count > 0) ? 0 : Refused;
    }

    private static string Text(MeasuredFile file)
    {
        var text = new List<string>();
        text.Add(file.File);
        if (file.Message is not null)
            text.Add($"  no figures ({file.Outcome}): {file.Message}");
        if (file.SampleRateHz is { } rate)
            text.Add($"  {rate:0.###} Hz, {file.DurationSeconds:0.###} s{Coupling(file.Coupling)}");
        foreach (var warning in file.WarningTexts)
            text.Add($"  ! {warning}");
        if (file.Exposures.Count > 0)
            text.Add("   no     at, s    50 % width, ms  effective, ms   total, ms  opening, ms  closing, ms  efficiency");
        foreach (var one in file.Exposures)
        {
            text.Add(
                $"  {one.Number,3} {one.StartSeconds,9:0.0000} {one.Width50Seconds * 1000,17:0.0000} {Ms(one.EffectiveSeconds),14} {one.TotalSeconds * 1000,11:0.0000} "
                + $"{one.OpeningSeconds * 1000,12:0.0000} {one.ClosingSeconds * 1000,12:0.0000} {(one.Efficiency is { } share ? $"{share:0.000}" : "–"),11}"
                + (one.Flags.Count > 0 ? "  " + string.Join(", ", one.Flags.Select(Spaced)) : ""));
        }

        foreach (var refused in file.Refused)
            text.Add($"  {refused.Number,3} {refused.AtSeconds,9:0.0000}  no figures: {Spaced(refused.Reason)}");
        foreach (var one in file.FocalPlane)
            text.Add($"  curtains at {one.AtSeconds:0.0000} s: {Curtain(one.FirstCurtain)} and {Curtain(one.SecondCurtain)}; {(one.IsCapping ? "capping" : $"largest over smallest {one.NonUniformity:0.000}")}");
        foreach (var one in file.Flash)
            text.Add($"  flash contact at {one.AtSeconds:0.0000} s, {one.ContactToFullyOpenSeconds * 1000:0.00} ms before fully open");
        if (file.Speed is { } speed)
            text.Add(Speed(speed));
        return string.Join('\n', text);
    }

    private static string Coupling(MeasuredCoupling? coupling) => coupling switch
    {
        null => "",
        { Kind: "ac", TimeConstantSeconds: { } tau } => $", AC-coupled, time constant {tau * 1000:0.0} ms",
        { Kind: "unknown" } => "",
        _ => $", {coupling.Kind.ToUpperInvariant()}-coupled",
    };

    private static string Curtain(MeasuredCurtain? curtain) =>
        curtain is null ? "not seen" : $"{curtain.WholeFrameSeconds * 1000:0.00} ms over the frame";

    private static string Speed(MeasuredSpeed speed) =>
        $"  {speed.Marked}: {speed.Count} {(speed.Count == 1 ? "exposure" : "exposures")}, mean {speed.MeanSeconds * 1000:0.0000} ms ({(speed.Time == "effective" ? "effective time" : "50 % width")}"
        + $", {TimeText.Photographic(speed.MeanSeconds, CultureInfo.InvariantCulture)})"
        + (speed.ExpandedUncertaintySeconds is { } u ? $" ± {u * 1000:0.0000} ms (95 %)" : "")
        + (speed.ErrorStops is { } error ? $", {error:+0.00;−0.00;0.00} stops, {Spaced(speed.Verdict)}" : "");

    /// <summary>withinNotProven → within not proven.</summary>
    private static string Spaced(string name) => string.Concat(name.Select(letter => char.IsUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : $"{letter}"));

    private static string Ms(double? seconds) => seconds is { } value ? $"{value * 1000:0.0000}" : "–";
}
