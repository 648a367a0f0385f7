using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Notebook;

/// <summary>What pages, entries and variants must hold.</summary>
public static class NotebookRules
{
    public const int NameLength = 200;
    public const int TextLength = 4000;
    public const int LinkLength = 500;
    public const int UnitLength = 20;
    public const int CaptionLength = 300;

    /// <summary>Null when the page may be kept.</summary>
    public static Failure? WhyNot(ModelPage page) => page.Model.Length == 0 ? new ModelUnnamed() : null;

    /// <summary>Null when the entry may be kept.</summary>
    public static Failure? WhyNot(ModelEntry entry)
    {
        if (entry.Title.Length == 0 && entry.Caution is null)
            return entry.Kind == EntryKind.Caution ? new CautionUnnamed() : new EntryUnnamed(entry.Kind);
        if (entry.Link.Length > 0 && !IsWeb(entry.Link))
            return new LinkNotWeb(entry.Link);
        if (entry.Low is { } low && !double.IsFinite(low))
            return new LimitTooLarge("Low");
        if (entry.High is { } high && !double.IsFinite(high))
            return new LimitTooLarge("High");
        return GaugeLimits.AreCrossed(entry.Unit, entry.Low, entry.High) ? new LimitsCrossed(entry.Low!.Value, entry.High!.Value) : null;
    }

    /// <summary>The lines of a variant's traits as they are kept, each once, or the first that is none.</summary>
    public static Result<string> Traits(string lines)
    {
        var kept = new List<Trait>();
        foreach (var line in lines.Split('\n').Select(TypedText.OneLine).Where(line => line.Length > 0))
        {
            if (Trait.Read(line) is not { } trait)
                return new TraitNotUnderstood(line);
            if (!kept.Exists(trait.IsSame))
                kept.Add(trait);
        }

        return string.Join('\n', kept);
    }

    private static bool IsWeb(string link) =>
        Uri.TryCreate(link, UriKind.Absolute, out var address) && address.Scheme is "http" or "https";
}
