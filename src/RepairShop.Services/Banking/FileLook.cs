using System.Text;
using RepairShop.Domain.Banking;

namespace RepairShop.Services.Banking;

/// <summary>What a file is by its content, whatever its name says; and what to do about one that is no statement.</summary>
public static class FileLook
{
    private const string AskAgain = "ask your bank for CAMT.053 (XML) or CSV.";

    /// <returns>The format, or why it is none of them.</returns>
    public static (StatementFormat? Format, StatementRefused? Refused) At(ReadOnlySpan<byte> bytes)
    {
        if (bytes.IsEmpty)
            return (null, new StatementEmpty());
        if (bytes.Length > StatementParts.MostBytes)
            return (null, new StatementTooLarge(bytes.Length));
        if (Binary(bytes) is { } other)
            return (null, other);
        var top = Top(bytes);
        if (top.StartsWith("<!DOCTYPE html", StringComparison.OrdinalIgnoreCase) || top.StartsWith("<html", StringComparison.OrdinalIgnoreCase))
            return (null, new OtherFile("a web page", "the bank’s site may have asked for a sign-in instead; sign in and download the statement again."));
        if (top.StartsWith('<'))
            return (StatementFormat.Camt, null);
        if (top.StartsWith(":20:", StringComparison.Ordinal) || top.StartsWith("{1:", StringComparison.Ordinal))
            return (null, new OtherFile("an MT940 file", AskAgain));
        return (StatementFormat.Csv, null);
    }

    private static OtherFile? Binary(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith("%PDF"u8))
            return new OtherFile("a PDF", "a PDF is for reading; " + AskAgain);
        if (bytes.StartsWith("PK\u0003\u0004"u8))
            return new OtherFile("a ZIP file or a spreadsheet", "unpack it first, or save the sheet as CSV.");
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
            return new OtherFile("an old spreadsheet", "save it as CSV first.");
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B]))
            return new OtherFile("a packed file", "unpack it first.");
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) || bytes.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47]))
            return new OtherFile("a picture", AskAgain);
        // UTF-16 with its mark holds zeros and is text; UTF-16 without it can't be told from a program.
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
            return null;
        return bytes.Contains((byte)0) ? new OtherFile("not text", AskAgain) : null;
    }

    private static string Top(ReadOnlySpan<byte> bytes)
    {
        var head = bytes[..Math.Min(bytes.Length, 400)];
        var text = head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) ? Encoding.Unicode.GetString(head)
            : head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]) ? Encoding.BigEndianUnicode.GetString(head)
            : Encoding.UTF8.GetString(head);
        return text.TrimStart('\uFEFF', ' ', '\t', '\r', '\n');
    }
}
