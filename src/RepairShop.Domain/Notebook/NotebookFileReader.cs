using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Notebook;

/// <summary>Reads and writes the file of one model. Whatever is wrong with a file is named with the place where it stands.</summary>
public static class NotebookFileReader
{
    public const int MostBytes = 25_000_000;

    private const int MostItems = 1000;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        NumberHandling = JsonNumberHandling.Strict,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
        MaxDepth = 16,
    };

    private static readonly JsonSerializerOptions Loose = new(JsonSerializerDefaults.Web) { MaxDepth = 16 };

    public static byte[] Write(NotebookFile file) => JsonSerializer.SerializeToUtf8Bytes(file, Json);

    /// <summary>The file as it would be taken, its texts cleaned as typed ones are.</summary>
    public static Result<NotebookFile> Read(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length > MostBytes)
            return new NotebookFileTooLarge(bytes.Length);
        try
        {
            if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
                bytes = bytes[3..];
            if (WhyNotOurs(bytes) is { } stranger)
                return stranger;
            var file = JsonSerializer.Deserialize<NotebookFile>(bytes, Json)!;
            return (Gap(file) ?? WhyNot(file)) is { } refused ? refused : Clean(file);
        }
        catch (JsonException damage)
        {
            return new NotebookFileWrong(PlaceOf(damage), "this does not belong here, or something is missing or of the wrong kind");
        }
    }

    private static Failure? WhyNotOurs(ReadOnlySpan<byte> bytes)
    {
        var head = JsonSerializer.Deserialize<Head>(bytes, Loose);
        if (head?.Format != NotebookFile.FormatName)
            return new NotANotebookFile();
        return head.Version is < 1 or > NotebookFile.NewestVersion ? new NotebookFileOfAnotherVersion(head.Version) : null;
    }

    /// <summary>A null where a list should hold something: the serializer looks at fields only.</summary>
    private static NotebookFileWrong? Gap(NotebookFile file)
    {
        var lists = new (string Place, IEnumerable<object?> Items)[]
        {
            ("markedSpeeds", file.MarkedSpeeds), ("variants", file.Variants), ("entries", file.Entries), ("guide.steps", file.Guide?.Steps ?? []),
            ("photos", file.Photos), ("variants.traits", file.Variants.Where(one => one is not null).SelectMany(one => one.Traits)),
        };
        return lists.Where(list => list.Items.Any(item => item is null))
            .Select(list => new NotebookFileWrong(list.Place, "something in this list is empty")).FirstOrDefault();
    }

    private static NotebookFileWrong? WhyNot(NotebookFile file)
    {
        if (NotebookRules.WhyNot(new ModelPage { Model = TypedText.OneLine(file.Model) }) is { } unnamed)
            return new NotebookFileWrong("model", unnamed.Message);
        if (CameraRules.Dial(string.Join(' ', file.MarkedSpeeds)) is { IsDone: false } dial)
            return new NotebookFileWrong("markedSpeeds", dial.Failure.Message);
        foreach (var (place, text, most) in Texts(file))
        {
            if (text.Length > most)
                return new NotebookFileWrong(place, $"the text has {text.Length} letters, the most is {most}");
        }

        return Many(file) ?? EntriesWhyNot(file) ?? VariantsWhyNot(file) ?? GuideWhyNot(file);
    }

    private static NotebookFileWrong? Many(NotebookFile file) => new (string Place, int Count)[]
        { ("variants", file.Variants.Count), ("entries", file.Entries.Count), ("photos", file.Photos.Count) }
        .Where(list => list.Count > MostItems)
        .Select(list => new NotebookFileWrong(list.Place, $"there are {list.Count}, the most is {MostItems}")).FirstOrDefault();

    private static NotebookFileWrong? EntriesWhyNot(NotebookFile file)
    {
        for (var i = 0; i < file.Entries.Count; i++)
        {
            var entry = new ModelEntry();
            Fill(entry, file.Entries[i]);
            if (NotebookRules.WhyNot(entry) is { } refused)
                return new NotebookFileWrong($"entries[{i}]", refused.Message);
        }

        return null;
    }

    private static NotebookFileWrong? VariantsWhyNot(NotebookFile file)
    {
        for (var i = 0; i < file.Variants.Count; i++)
        {
            if (TypedText.OneLine(file.Variants[i].Name).Length == 0)
                return new NotebookFileWrong($"variants[{i}].name", "the variant has no name");
            if (NotebookRules.Traits(Lines(file.Variants[i])) is { IsDone: false } refused)
                return new NotebookFileWrong($"variants[{i}].traits", refused.Failure.Message);
        }

        return null;
    }

    private static NotebookFileWrong? GuideWhyNot(NotebookFile file)
    {
        if (file.Guide is null)
            return null;
        for (var i = 0; i < file.Guide.Steps.Count; i++)
        {
            if (file.Guide.Steps[i].Remember.Any(flag => !StripWords.AllFlags.Contains(flag)))
                return new NotebookFileWrong($"guide.steps[{i}].remember", "this is nothing one could be asked to remember");
        }

        return GuideRules.Check([.. file.Guide.Steps.Select(step => step.ToStep())]).Failure switch
        {
            null => null,
            GuideStepWrong wrong => new NotebookFileWrong($"guide.steps[{wrong.Index}]", wrong.Why.Message),
            var other => new NotebookFileWrong("guide.steps", other.Message),
        };
    }

    private static NotebookFile Clean(NotebookFile file) => file with
    {
        Maker = TypedText.OneLine(file.Maker),
        Model = TypedText.OneLine(file.Model),
        MarkedSpeeds = CameraRules.Dial(string.Join(' ', file.MarkedSpeeds)).Value!,
        Notes = TypedText.Lines(file.Notes),
    };

    /// <summary>The lines of a variant's traits, as a person would have typed them.</summary>
    public static string Lines(FileVariant variant) => string.Join('\n', variant.Traits.Select(trait => $"{TypedText.OneLine(trait.Trait)}: {TypedText.OneLine(trait.Value)}"));

    /// <summary>Writes what the file says into an entry, cleaned as typed text is.</summary>
    public static void Fill(ModelEntry entry, FileEntry said)
    {
        (entry.Kind, entry.Title, entry.Text) = (said.Kind, TypedText.OneLine(said.Title), TypedText.Lines(said.Text));
        (entry.Link, entry.Caution) = (TypedText.OneLine(said.Link), said.Kind == EntryKind.Caution ? said.Caution : null);
        var isGauge = said.Kind == EntryKind.Gauge;
        (entry.Unit, entry.Low, entry.High) = isGauge ? (GaugeLimits.UnitOf(TypedText.OneLine(said.Unit)), said.Low, said.High) : ("", null, null);
    }

    /// <summary>Every text of a file with its place and the most letters it may have.</summary>
    public static IEnumerable<(string Place, string Text, int Most)> Texts(NotebookFile file)
    {
        yield return ("maker", file.Maker, NotebookRules.NameLength);
        yield return ("model", file.Model, NotebookRules.NameLength);
        yield return ("notes", file.Notes, NotebookRules.TextLength);
        foreach (var (variant, i) in file.Variants.Select((one, i) => (one, i)))
        {
            yield return ($"variants[{i}].name", variant.Name, NotebookRules.NameLength);
            yield return ($"variants[{i}].note", variant.Note, NotebookRules.TextLength);
            yield return ($"variants[{i}].traits", Lines(variant), NotebookRules.TextLength);
        }

        foreach (var (entry, i) in file.Entries.Select((one, i) => (one, i)))
        {
            yield return ($"entries[{i}].title", entry.Title, NotebookRules.NameLength);
            yield return ($"entries[{i}].text", entry.Text, NotebookRules.TextLength);
            yield return ($"entries[{i}].link", entry.Link, NotebookRules.LinkLength);
            yield return ($"entries[{i}].unit", entry.Unit, NotebookRules.UnitLength);
        }

        yield return ("guide.note", file.Guide?.Note ?? "", NotebookRules.TextLength);
        foreach (var (step, i) in (file.Guide?.Steps ?? []).Select((one, i) => (one, i)))
        {
            yield return ($"guide.steps[{i}].what", step.What, NotebookRules.NameLength);
            yield return ($"guide.steps[{i}].note", step.Note, NotebookRules.TextLength);
            yield return ($"guide.steps[{i}].shimPlace", step.ShimPlace, NotebookRules.NameLength);
        }

        foreach (var (photo, i) in file.Photos.Select((one, i) => (one, i)))
            yield return ($"photos[{i}].caption", photo.Caption, NotebookRules.CaptionLength);
    }

    private static string PlaceOf(JsonException damage) => damage.Path is { Length: > 2 } path
        ? path[2..]
        : string.Create(CultureInfo.InvariantCulture, $"line {(damage.LineNumber ?? 0) + 1}");

    private sealed record Head(string? Format, int Version);
}
