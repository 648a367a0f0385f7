using System.Text.RegularExpressions;

namespace RepairShop.Domain.Post;

/// <summary>The shop's wording with its placeholders filled in.</summary>
/// <param name="Text">Unknown placeholders stay as they were written.</param>
/// <param name="Unknown">Placeholders nobody knows, each once, without braces.</param>
public sealed record FilledText(string Text, IReadOnlyList<string> Unknown);

/// <summary>Puts values into <c>{placeholders}</c>. A value is never read for placeholders itself.</summary>
public static partial class MailTextFill
{
    [GeneratedRegex(@"\{([A-Za-z]+)\}")]
    private static partial Regex Placeholder();

    /// <summary>What each kind of letter can name.</summary>
    public static IReadOnlyList<string> PlaceholdersOf(MailKind kind) => kind switch
    {
        MailKind.Estimate => ["customer", "camera", "number", "shop", "paper", "low", "high", "valid", "answer"],
        MailKind.Invoice => ["customer", "camera", "number", "shop", "paper", "total", "due"],
        MailKind.CreditNote => ["customer", "camera", "number", "shop", "paper", "total"],
        MailKind.ServiceRecord => ["customer", "camera", "number", "shop", "paper"],
        MailKind.Statement => ["customer", "shop", "paper", "from", "until", "total"],
        MailKind.Reminder => ["customer", "shop", "paper", "title", "total", "due"],
        _ => ["customer", "camera", "number", "shop"],
    };

    public static FilledText Fill(string text, IReadOnlyDictionary<string, string> values)
    {
        var unknown = new List<string>();
        var filled = Placeholder().Replace(text, match =>
        {
            var name = match.Groups[1].Value;
            if (values.TryGetValue(name.ToLowerInvariant(), out var value))
                return value;
            if (!unknown.Contains(name))
                unknown.Add(name);
            return match.Value;
        });
        return new FilledText(filled, unknown);
    }
}
