using System.Globalization;

namespace RepairShop.Services.Database;

/// <summary>Where a page of a list ended, as text for its address.</summary>
internal static class ListKey
{
    public static string Write(string text, Guid id) => $"{id:N}{text}";

    public static string Write(DateTimeOffset at, Guid id) => $"{id:N}{at.UtcTicks.ToString(CultureInfo.InvariantCulture)}";

    /// <summary>Null when it is no key of ours: the list then begins at its beginning.</summary>
    public static (string Text, Guid Id)? Read(string? key) =>
        key is { Length: >= 32 } && Guid.TryParseExact(key[..32], "N", out var id) ? (key[32..], id) : null;

    public static (DateTimeOffset At, Guid Id)? ReadTime(string? key) =>
        Read(key) is var (text, id)
        && long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var ticks)
        && ticks <= DateTimeOffset.MaxValue.UtcTicks
            ? (new DateTimeOffset(ticks, TimeSpan.Zero), id)
            : null;
}
