using System.Globalization;
using RepairShop.Domain.Notebook;

namespace RepairShop.Services.Notebook;

/// <summary>What a file says against what stands here: things are the same by kind and name, whatever is written about them.</summary>
internal static class NotebookMerge
{
    public static string KeyOf(FileVariant variant) => $"variant\t{variant.Name.Trim().ToUpperInvariant()}";

    public static string KeyOf(FileEntry entry) =>
        $"{entry.Kind}\t{(entry.Title.Length > 0 ? entry.Title.Trim().ToUpperInvariant() : entry.Caution?.ToString())}";

    public static IEnumerable<ImportChange> Changes(NotebookFile? here, NotebookFile file)
    {
        if (file.Notes.Length > 0 && file.Notes != (here?.Notes ?? ""))
            yield return new ImportChange("notes", Filled(here?.Notes), file.Notes);
        if (file.MarkedSpeeds.Count > 0 && !file.MarkedSpeeds.SequenceEqual(here?.MarkedSpeeds ?? []))
            yield return new ImportChange("marked speeds", Filled(string.Join(' ', here?.MarkedSpeeds ?? [])), string.Join(' ', file.MarkedSpeeds));
        foreach (var change in Items(here?.Variants ?? [], file.Variants, KeyOf, Say, one => $"variant {one.Name}"))
            yield return change;
        foreach (var change in Items(here?.Entries ?? [], file.Entries, KeyOf, Say, NameOf))
            yield return change;
        if (file.Guide is { } guide && !Steps(here?.Guide).SequenceEqual(Steps(guide)))
            yield return new ImportChange("guide", here?.Guide is { } old ? Say(old) : null, $"{Say(guide)}, as the newest version");
    }

    public static int Unchanged(NotebookFile? here, NotebookFile file) => here is null ? 0
        : Same(here.Variants, file.Variants, KeyOf, Say) + Same(here.Entries, file.Entries, KeyOf, Say)
            + (file.Guide is { } guide && Steps(here.Guide).SequenceEqual(Steps(guide)) ? 1 : 0);

    private static IEnumerable<ImportChange> Items<T>(
        IEnumerable<T> here, IEnumerable<T> file, Func<T, string> key, Func<T, string> say, Func<T, string> name)
    {
        var known = here.DistinctBy(key).ToDictionary(key, say);
        foreach (var one in file)
        {
            if (!known.TryGetValue(key(one), out var now))
                yield return new ImportChange(name(one), null, say(one));
            else if (now != say(one))
                yield return new ImportChange(name(one), now, say(one));
        }
    }

    private static int Same<T>(IEnumerable<T> here, IEnumerable<T> file, Func<T, string> key, Func<T, string> say)
    {
        var known = here.DistinctBy(key).ToDictionary(key, say);
        return file.Count(one => known.TryGetValue(key(one), out var now) && now == say(one));
    }

    private static IEnumerable<GuideStep> Steps(FileGuide? guide) => guide?.Steps.Select(step => step.ToStep()) ?? [];

    private static string Say(FileVariant variant) => Joined([NotebookFileReader.Lines(variant), variant.Note.Trim()]);

    private static string Say(FileEntry entry) => Joined(
        [
            entry.Kind == EntryKind.Gauge ? GaugeLimits.Write(entry.Unit, entry.Low, entry.High, CultureInfo.CurrentCulture) : "",
            entry.Caution is { } caution ? EntryWords.Of(caution) : "", entry.Text.Trim(), entry.Link.Trim(),
        ]);

    private static string Say(FileGuide guide) => guide.Steps.Count == 1 ? "1 step" : $"{guide.Steps.Count} steps";

    private static string NameOf(FileEntry entry) =>
        $"{EntryWords.Of(entry.Kind)} {(entry.Title.Length == 0 && entry.Caution is { } caution ? EntryWords.Of(caution) : entry.Title)}";

    private static string Joined(IEnumerable<string> texts) => string.Join('\n', texts.Where(text => text.Length > 0));

    private static string? Filled(string? text) => string.IsNullOrEmpty(text) ? null : text;
}
