using System.Globalization;
using RepairShop.Domain.Results;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;

namespace RepairShop.Web.Hosting;

/// <summary><c>measure FILE... [--coupling auto|ac|dc] [--reference N] [--channels LIST] [--marked 1/125] [--json]</c>.</summary>
public sealed record MeasureOptions(IReadOnlyList<string> Files, Rig Rig, MarkedSpeed? Marked, bool Json)
{
    public const string Command = "measure";

    /// <summary>Reads what stands behind <c>measure</c>.</summary>
    public static Result<MeasureOptions> Read(IReadOnlyList<string> args)
    {
        var files = new List<string>();
        var options = new MeasureOptions(files, Rig.OneSensor, null, false);
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] == "--")
            {
                files.AddRange(args.Skip(i + 1));
                break;
            }

            if (!args[i].StartsWith("--", StringComparison.Ordinal))
            {
                files.Add(args[i]);
                continue;
            }

            var at = args[i].IndexOf('=', StringComparison.Ordinal);
            var name = at < 0 ? args[i] : args[i][..at];
            if (name == "--json" && at < 0)
            {
                options = options with { Json = true };
                continue;
            }

            if (name is not ("--coupling" or "--reference" or "--channels" or "--marked"))
                return new MeasureOptionUnknown(args[i]);
            var value = at >= 0 ? args[i][(at + 1)..] : i + 1 < args.Count ? args[++i] : "";
            var with = options.With(name, value);
            if (!with.IsDone)
                return with;
            options = with.Value;
        }

        return files.Count == 0 ? new NoFileNamed() : options;
    }

    private Result<MeasureOptions> With(string name, string value) => name switch
    {
        "--coupling" => Coupling(value) is { } coupling
            ? this with { Rig = Rig with { Coupling = coupling } } : new MeasureValueRefused(name, value, "auto, ac or dc"),
        "--reference" => int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0
            ? this with { Rig = Rig with { ReferenceExposure = number } } : new MeasureValueRefused(name, value, "an exposure's number, counted from 1"),
        "--channels" => Roles(value) is { } roles
            ? this with { Rig = Rig with { Roles = roles } } : new MeasureValueRefused(name, value, "light, light-first, light-last, contact or unused for each channel, parted by commas, each but unused once, at least one of them light"),
        _ => MarkedSpeed.Parse(value).Mark is { } mark
            ? this with { Marked = mark } : new MeasureValueRefused(name, value, "a mark of a dial such as 1/125"),
    };

    private static InputCoupling? Coupling(string text) => text.ToLowerInvariant() switch
    {
        "auto" => InputCoupling.Auto,
        "ac" => InputCoupling.Ac,
        "dc" => InputCoupling.Dc,
        _ => null,
    };

    private static List<ChannelRole>? Roles(string text)
    {
        var roles = text.Split(',').Select(RigWords.Read).ToList();
        if (roles.Any(role => role is null))
            return null;
        var named = roles.Select(role => role!.Value).ToList();
        return RigFit.WhyNot(Rig.OneSensor with { Roles = named }, named.Count) is null ? named : null;
    }
}

public sealed record MeasureOptionUnknown(string Option)
    : Invalid(Option, $"measure does not know {Option}: it takes files and --coupling, --reference, --channels, --marked, --json.");

public sealed record MeasureValueRefused(string Option, string Value, string Wanted)
    : Invalid(Option, Value.Length == 0 ? $"{Option} needs a value behind it: {Wanted}." : $"{Option} can't be “{Value}”: give {Wanted}.");

public sealed record NoFileNamed() : Invalid("measure", "measure needs at least one file: measure recording.wav");
