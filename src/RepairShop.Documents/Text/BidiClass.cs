using System.Globalization;

namespace RepairShop.Documents.Text;

/// <summary>Bidirectional classes of UAX #9, table 4, without the explicit formatting codes.</summary>
internal enum BidiClass
{
    L,
    R,
    AL,
    EN,
    ES,
    ET,
    AN,
    CS,
    NSM,
    BN,
    WS,
    ON,
}

/// <summary>
/// The class of a character from its block and general category. The runtime keeps its own table private; names, addresses and
/// notes need no more than this. Embedding and isolate codes count as BN and thereby as not there.
/// </summary>
internal static class BidiClasses
{
    public static BidiClass Of(int c)
    {
        switch (c)
        {
            case 0x200E: return BidiClass.L;
            case 0x200F: return BidiClass.R;
            case 0x061C: return BidiClass.AL;
            case '+' or '-' or 0x207A or 0x207B or 0x208A or 0x208B or 0x2212 or 0xFB29 or 0xFE62 or 0xFE63 or 0xFF0B or 0xFF0D: return BidiClass.ES;
            case ',' or '.' or '/' or ':' or 0x00A0 or 0x060C or 0x202F or 0x2044 or 0xFE50 or 0xFE52 or 0xFE55 or 0xFF0C or 0xFF0E or 0xFF0F or 0xFF1A:
                return BidiClass.CS;
            case '#' or '%' or 0x00B0 or 0x00B1 or 0x0609 or 0x060A or 0x066A or (>= 0x2030 and <= 0x2034) or 0x212E or 0x2213 or 0xFE5F or 0xFE6A or 0xFF03 or 0xFF05:
                return BidiClass.ET;
            case (>= 0x0660 and <= 0x0669) or 0x066B or 0x066C or (>= 0x0600 and <= 0x0605) or 0x06DD: return BidiClass.AN;
            case (>= '0' and <= '9') or 0xB2 or 0xB3 or 0xB9 or (>= 0x06F0 and <= 0x06F9) or 0x2070 or (>= 0x2074 and <= 0x2079)
                or (>= 0x2080 and <= 0x2089) or (>= 0x2488 and <= 0x249B) or (>= 0xFF10 and <= 0xFF19):
                return BidiClass.EN;
        }
        return ByCategory(c);
    }

    private static BidiClass ByCategory(int c) => CharUnicodeInfo.GetUnicodeCategory(c) switch
    {
        UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark => BidiClass.NSM,
        UnicodeCategory.CurrencySymbol => c == 0x060B ? BidiClass.AL : c == 0xFDFC ? BidiClass.AL : BidiClass.ET,
        UnicodeCategory.Format or UnicodeCategory.Control when c is not ('\t' or '\n' or '\r') => BidiClass.BN,
        UnicodeCategory.Control or UnicodeCategory.SpaceSeparator or UnicodeCategory.LineSeparator => BidiClass.WS,
        UnicodeCategory.ConnectorPunctuation or UnicodeCategory.DashPunctuation or UnicodeCategory.OpenPunctuation
            or UnicodeCategory.ClosePunctuation or UnicodeCategory.InitialQuotePunctuation or UnicodeCategory.FinalQuotePunctuation
            or UnicodeCategory.MathSymbol or UnicodeCategory.ModifierSymbol => Block(c) ?? BidiClass.ON,
        UnicodeCategory.OtherPunctuation or UnicodeCategory.OtherSymbol or UnicodeCategory.OtherNumber when Block(c) is null => BidiClass.ON,
        _ => Block(c) ?? BidiClass.L,
    };

    /// <summary>The right-to-left blocks. Punctuation inside them follows its letters, but for the few marks named neutral.</summary>
    private static BidiClass? Block(int c) => c switch
    {
        (>= 0x0606 and <= 0x0607) or (>= 0x060E and <= 0x060F) or 0x06DE or 0x06E9 or 0xFD3E or 0xFD3F => BidiClass.ON,
        (>= 0x0590 and <= 0x05FF) or (>= 0x07C0 and <= 0x085F) or (>= 0xFB1D and <= 0xFB4F) => BidiClass.R,
        (>= 0x0600 and <= 0x07BF) or (>= 0x0860 and <= 0x08FF) or (>= 0xFB50 and <= 0xFDFF) or (>= 0xFE70 and <= 0xFEFE) => BidiClass.AL,
        (>= 0x10800 and <= 0x10FFF) or (>= 0x1E800 and <= 0x1EFFF) => BidiClass.R,
        _ => null,
    };
}
