namespace RepairShop.Web.KeptText;

/// <summary>What a form held when it could not be taken, so that nobody types it twice.</summary>
/// <param name="Url">Where it was sent, on this host.</param>
/// <param name="Fields">Names and values; no passwords, no tokens.</param>
/// <param name="Files">Names of files that must be chosen again.</param>
public sealed record KeptForm(string Url, IReadOnlyList<KeptField> Fields, IReadOnlyList<string> Files)
{
    /// <summary>Why it could not be taken, for people; empty where the page only had to be opened anew.</summary>
    public string Why { get; init; } = "";
}

public sealed record KeptField(string Name, string Value)
{
    /// <summary>"Input.Complaint" → "Complaint", for people.</summary>
    public string Label => Forms.FieldText.Words(Name[(Name.LastIndexOf('.') + 1)..]);
}
