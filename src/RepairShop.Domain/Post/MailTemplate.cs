using System.Text.RegularExpressions;

namespace RepairShop.Domain.Post;

/// <summary>A letter's wording with words in braces, such as {customer}, which are filled in when it is written.</summary>
public static partial class MailTemplate
{
    private static readonly string[] Always = ["customer", "camera", "number", "shop"];

    /// <summary>The placeholders a kind of letter can fill.</summary>
    public static IReadOnlyList<string> Known(MailKind kind) => kind switch
    {
        MailKind.Estimate => [.. Always, "low", "high", "valid", "answer"],
        MailKind.Invoice => [.. Always, "paper", "total", "due"],
        MailKind.CreditNote => [.. Always, "paper", "total"],
        MailKind.Statement => ["customer", "shop", "paper", "from", "until", "total"],
        MailKind.Reminder => ["customer", "shop", "paper", "title", "total", "due"],
        _ => Always,
    };

    /// <summary>The first placeholder this kind can't fill; null when all are known.</summary>
    public static string? FirstUnknown(MailKind kind, string text) =>
        Placeholder().Matches(text).Select(match => match.Groups[1].Value).FirstOrDefault(name => !Known(kind).Contains(name));

    /// <summary>Fills in what is given and leaves the rest as it stands.</summary>
    public static string Fill(string text, IReadOnlyDictionary<string, string> values) =>
        Placeholder().Replace(text, match => values.GetValueOrDefault(match.Groups[1].Value, match.Value));

    [GeneratedRegex(@"\{(\w+)\}")]
    private static partial Regex Placeholder();
}
