using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>Entries as the pages say them.</summary>
public static class EntryText
{
    public static string Upper(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>What an entry is called, also where a usual caution has no words of its own.</summary>
    public static string Name(EntryTyped entry) =>
        entry.Title.Length > 0 ? entry.Title : entry.Caution is { } caution ? Upper(EntryWords.Of(caution)) : EntryWords.Of(entry.Kind);

    /// <summary>"in 3 of 7 repairs"; of none "not met here".</summary>
    public static string Met(int repairs, WorkshopFigures workshop) =>
        repairs == 0 ? "not met here" : $"in {repairs} of {workshop.WithFindings}";

    /// <summary>"4 times, 7.9 to 9.2 s"; nothing when it was not measured here.</summary>
    public static string Measured(EntryView gauge, IFormatProvider culture) => gauge.Measured is not { } here ? ""
        : $"{(here.Count == 1 ? "once" : $"{here.Count} times")}, {GaugeLimits.Write(here.Unit, here.Lowest, here.Highest, culture)}";

    /// <summary>What its name is asked for as, by kind.</summary>
    public static (string Label, string Hint) Title(EntryKind kind) => kind switch
    {
        EntryKind.Fault => ("Component", "As your findings name it, so that they are counted: shutter blades."),
        EntryKind.Gauge => ("What is measured", "As your findings name it: self-timer run, spring at rest, shim under the left standard."),
        EntryKind.Tool => ("Tool", "Ring spanner, rubber bung, screwdriver 1.2 mm."),
        EntryKind.Torque => ("Where", "Screws of the lens standard."),
        EntryKind.Lubricant => ("Where", "Focus helicoid."),
        _ => ("In a few words", "Empty when a usual caution says it."),
    };

    public static (string Label, string Hint) Text(EntryKind kind) => kind switch
    {
        EntryKind.Fault => ("How it shows and what cures it", ""),
        EntryKind.Tool => ("What to know about it", "Size, where it lies, what else does."),
        EntryKind.Torque => ("How tight", "Finger-tight and a quarter turn; 12 cN m."),
        EntryKind.Lubricant => ("With what and how much", "Left dry is an answer too."),
        _ => ("More about it", ""),
    };
}
