using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Notebook;

/// <summary>Something to look at and what it looks like: "rewind knob: plain". Compared without regard to case.</summary>
public sealed record Trait(string Name, string Value)
{
    /// <summary>Reads "rewind knob: plain"; null when there is no colon or nothing on one side of it.</summary>
    public static Trait? Read(string line)
    {
        var at = line.IndexOf(':', StringComparison.Ordinal);
        if (at < 0)
            return null;
        var (name, value) = (TypedText.OneLine(line[..at]), TypedText.OneLine(line[(at + 1)..]));
        return name.Length > 0 && value.Length > 0 ? new Trait(name, value) : null;
    }

    public override string ToString() => $"{Name}: {Value}";

    internal bool IsOf(Trait other) => string.Equals(Name, other.Name, StringComparison.OrdinalIgnoreCase);

    internal bool IsSame(Trait other) => IsOf(other) && string.Equals(Value, other.Value, StringComparison.OrdinalIgnoreCase);
}

/// <summary>A variant as the questions see it: its name and what is known of its traits.</summary>
public sealed record TraitsOf(string Variant, IReadOnlyList<Trait> Traits)
{
    /// <summary>From the lines of a variant; a line that is no trait was refused when it was written.</summary>
    public static TraitsOf Read(ModelVariant variant) => new(variant.Name, [.. variant.Traits.Split('\n').Select(Trait.Read).OfType<Trait>()]);

    /// <summary>The values a trait has in this variant, each once; none when nothing is known of it.</summary>
    public IReadOnlyList<string> ValuesOf(string trait) =>
    [
        .. Traits.Where(one => string.Equals(one.Name, trait, StringComparison.OrdinalIgnoreCase)).Select(one => one.Value)
            .Distinct(StringComparer.OrdinalIgnoreCase),
    ];
}
