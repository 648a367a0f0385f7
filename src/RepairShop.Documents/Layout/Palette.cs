namespace RepairShop.Documents.Layout;

/// <summary>Paper, ink, hairlines and one accent.</summary>
internal static class Palette
{
    public const uint Paper = 0xffffff;
    public const uint Ink = 0x1f1c17;
    public const uint Soft = 0x635c50;
    public const uint Line = 0xcfc7b6;
    public const uint Accent = 0x17635a;
    public const uint Band = 0xe7efe6;
    public const uint Shade = 0xf1ece1;
}
