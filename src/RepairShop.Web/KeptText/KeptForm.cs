using System.Security.Claims;

namespace RepairShop.Web.KeptText;

/// <summary>What a form held when it could not be taken, so that nobody types it twice.</summary>
/// <param name="Url">Where it was sent, on this host.</param>
/// <param name="Fields">Names and values; no passwords, no tokens.</param>
/// <param name="Files">Names of files that must be chosen again.</param>
public sealed record KeptForm(string Url, IReadOnlyList<KeptField> Fields, IReadOnlyList<string> Files)
{
    /// <summary>Why it could not be taken, for people; empty where the page only had to be opened anew.</summary>
    public string Why { get; init; } = "";

    /// <summary>Who typed it, where that is known; nobody else gets to see it.</summary>
    public Guid? Of { get; init; }

    public bool IsFor(ClaimsPrincipal person) => Of is not { } id || person.FindFirstValue(ClaimTypes.NameIdentifier) == id.ToString();

    /// <summary>What a person typed or ticked, for people: no ids that only the program reads, and a tick as one word.</summary>
    public IEnumerable<KeptField> Shown() => Fields
        .Where(field => field.Value.Trim().Length > 0 && !Guid.TryParse(field.Value, out _))
        .GroupBy(field => field.Name)
        .SelectMany(same => same.Last().Value == "false" ? [new KeptField(same.Key, same.Any(field => field.Value == "true") ? "yes" : "no")] : same.AsEnumerable());
}

public sealed record KeptField(string Name, string Value)
{
    /// <summary>"Input.Complaint" → "Complaint", for people.</summary>
    public string Label => Forms.FieldText.Words(Name[(Name.LastIndexOf('.') + 1)..]);
}
