using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace RepairShop.Documents.Layout;

/// <summary>
/// Takes out of a finished PDF what the engine put in from the machine's clock and time zone, so that equal papers are equal
/// files wherever and whenever they are printed.
/// </summary>
internal static partial class PdfIdentity
{
    private const string NoUuid = "uuid:00000000-0000-0000-0000-000000000000";

    /// <summary>
    /// With PDF/A on, the identity is drawn from the clock: a hash of all the other bytes takes its place. Dates are written as
    /// they were given, in UTC, but with the host's offset behind them: it becomes +00:00. Nothing before the trailer changes its
    /// length, so every offset in the file holds.
    /// </summary>
    public static byte[] Fix(byte[] pdf)
    {
        // In Latin-1 one character is one byte: nothing is changed by reading and writing.
        var text = Encoding.Latin1.GetString(pdf);
        var trailer = text.LastIndexOf("/ID [", StringComparison.Ordinal);
        var end = text.IndexOf(">>\nstartxref", Math.Max(0, trailer), StringComparison.Ordinal);
        if (trailer < 0 || end < 0)
            throw new InvalidOperationException("The PDF's trailer has an unknown shape: its identity cannot be set.");
        var head = XmpIdentity().Replace(text[..trailer], NoUuid);
        head = InfoDate().Replace(head, "${date}+00'00')");
        head = XmpDate().Replace(head, "${date}+00:00<");
        var tail = text[end..];
        var hash = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(head + tail))).ToLowerInvariant()[..32];
        var uuid = $"uuid:{hash[..8]}-{hash[8..12]}-{hash[12..16]}-{hash[16..20]}-{hash[20..]}";
        return Encoding.Latin1.GetBytes($"{head.Replace(NoUuid, uuid, StringComparison.Ordinal)}/ID [<{hash}> <{hash}>]{tail}");
    }

    [GeneratedRegex("uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}", RegexOptions.IgnoreCase)]
    private static partial Regex XmpIdentity();

    [GeneratedRegex(@"(?<date>/(Creation|Mod)Date \(D:[0-9]{14})[+-][0-9]{2}'[0-9]{2}'\)", RegexOptions.ExplicitCapture)]
    private static partial Regex InfoDate();

    [GeneratedRegex("(?<date><xmp:(Create|Modify|Metadata)Date>[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2})[+-][0-9]{2}:[0-9]{2}<", RegexOptions.ExplicitCapture)]
    private static partial Regex XmpDate();
}
