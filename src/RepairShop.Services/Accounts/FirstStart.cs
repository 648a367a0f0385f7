using System.Security.Cryptography;
using System.Text;

namespace RepairShop.Services.Accounts;

/// <summary>
/// The one-time code that lets the first person make the owner's account. It lives in this process only and is shown on its
/// console: who can read that runs the program anyway.
/// </summary>
public sealed class FirstStart
{
    private volatile bool done;

    public string Code { get; } = OneTimePassword.New();

    /// <summary>True once an owner is known to exist; it never becomes false again.</summary>
    public bool IsDone => done;

    public void Done() => done = true;

    /// <summary>Compares in constant time, blind to case, blanks and hyphens.</summary>
    public bool IsCode(string typed) =>
        CryptographicOperations.FixedTimeEquals(SHA256.HashData(Bytes(typed)), SHA256.HashData(Bytes(Code)));

    private static byte[] Bytes(string code) =>
        Encoding.UTF8.GetBytes(new string([.. code.Where(char.IsLetterOrDigit).Select(char.ToLowerInvariant)]));
}
