using RepairShop.Services.Accounts;

namespace RepairShop.Web.Access;

/// <summary>Who may open which pages: the one place that says so. The longest matching path wins; a page without a line stops the program.</summary>
public static class AccessTable
{
    private static readonly string[] Everybody = [Roles.Owner, Roles.Bench, Roles.Counter];
    private static readonly string[] Counter = [Roles.Owner, Roles.Counter];
    private static readonly string[] OwnerOnly = [Roles.Owner];

    public static IReadOnlyList<AccessLine> Lines { get; } =
    [
        new("/", Everybody, Exactly: true),
        new("/account", Everybody),
        new("/account/sign-in", null),
        new("/account/denied", null),
        new("/first-start", null),
        new("/error", null),
        new("/answer", null), // a customer answers an estimate with the link in the letter
        new("/style", null), // in Development only
        new("/bench", Everybody),
        new("/find", Everybody),
        new("/repairs", Everybody),
        new("/repairs/{number}/invoice", Counter),
        new("/customers", Everybody),
        new("/customers/{id:guid}/money", Counter),
        new("/customers/{id:guid}/statement", Counter),
        new("/cameras", Everybody),
        new("/stock", Everybody),
        new("/notebook", Everybody),
        new("/tools", Everybody),
        new("/papers", Everybody), // reading what was issued; issuing bills and taking money is for the counter
        new("/files", Everybody),
        new("/photos", Everybody),
        new("/money", Counter),
        new("/invoices", Counter),
        new("/banking", Counter), // taking money is the counter's
        new("/post", Counter),
        new("/figures", OwnerOnly),
        new("/ledger", OwnerOnly),
        new("/shop", OwnerOnly),
    ];

    /// <summary>The line for a page's route template such as <c>repairs/{number}/estimate</c>; null when no line covers it.</summary>
    public static AccessLine? For(string template)
    {
        var path = "/" + template.Trim('/');
        return Lines
            .Where(line => line.Covers(path))
            .OrderByDescending(line => line.Path.Length)
            .FirstOrDefault();
    }

    public static bool Allows(string path, Func<string, bool> isInRole) =>
        For(path) is { } line && (line.Roles is null || line.Roles.Any(isInRole));
}

/// <param name="Path">Where the paths begin.</param>
/// <param name="Roles">Who may; null means anybody, without signing in.</param>
/// <param name="Exactly">This path only, not what lies below it.</param>
public sealed record AccessLine(string Path, IReadOnlyList<string>? Roles, bool Exactly = false)
{
    public bool Covers(string path) =>
        string.Equals(path, Path, StringComparison.OrdinalIgnoreCase)
        || (!Exactly && path.StartsWith(Path + "/", StringComparison.OrdinalIgnoreCase));
}
