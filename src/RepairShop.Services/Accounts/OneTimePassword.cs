using System.Security.Cryptography;

namespace RepairShop.Services.Accounts;

/// <summary>Codes and passwords that are read off a screen once: no letters or digits that look alike.</summary>
public static class OneTimePassword
{
    private const string Letters = "abcdefghjkmnpqrstuvwxyz23456789";

    /// <summary>Four groups of four, about 79 bits.</summary>
    public static string New() => string.Join('-', Enumerable.Range(0, 4).Select(_ => RandomNumberGenerator.GetString(Letters, 4)));
}
