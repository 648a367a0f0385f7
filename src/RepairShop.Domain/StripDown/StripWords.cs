using System.Globalization;

namespace RepairShop.Domain.StripDown;

/// <summary>The words of the strip-down, the same on screen and paper.</summary>
public static class StripWords
{
    private static readonly (Remember Flag, string Words)[] Flags =
    [
        (Remember.LookAlike, "differs from a look-alike"),
        (Remember.LeftHandThread, "left-hand thread"),
        (Remember.Orientation, "mind the orientation"),
        (Remember.UnderTension, "under tension"),
        (Remember.EasilyLost, "easily lost"),
        (Remember.NoSpare, "no spare"),
        (Remember.HandleByEdges, "handle by the edges"),
        (Remember.BackOffOnly, "only backed off"),
    ];

    public static string Of(HeldBy held) => held switch
    {
        HeldBy.Screw => "screw",
        HeldBy.Ring => "ring",
        HeldBy.Clip => "clip",
        HeldBy.Spring => "spring",
        HeldBy.Friction => "friction",
        HeldBy.Adhesive => "adhesive",
        HeldBy.Solder => "solder",
        HeldBy.Loose => "lies loose",
        _ => throw new ArgumentOutOfRangeException(nameof(held), held, null),
    };

    public static string Of(ItemFate fate) => fate switch
    {
        ItemFate.StillOut => "still out",
        ItemFate.Refitted => "refitted",
        ItemFate.Replaced => "replaced",
        ItemFate.Returned => "returned in the bag",
        ItemFate.WrittenOff => "written off",
        _ => throw new ArgumentOutOfRangeException(nameof(fate), fate, null),
    };

    public static IReadOnlyList<Remember> AllFlags { get; } = [.. Flags.Select(flag => flag.Flag)];

    public static IReadOnlyList<string> Of(Remember remember) =>
        [.. Flags.Where(flag => remember.HasFlag(flag.Flag)).Select(flag => flag.Words)];

    public static string OfOne(Remember flag) => Flags.Single(one => one.Flag == flag).Words;

    public static string Of(SolventCaution caution) => caution switch
    {
        SolventCaution.Flammable => "flammable",
        SolventCaution.HarmfulVapour => "harmful vapour",
        SolventCaution.AttacksFinish => "attacks plastics, paint and shellac",
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, null),
    };

    public static IReadOnlyList<SolventCaution> Each(SolventCaution cautions) =>
        [.. new[] { SolventCaution.Flammable, SolventCaution.HarmfulVapour, SolventCaution.AttacksFinish }.Where(one => cautions.HasFlag(one))];

    /// <summary>"4 × top plate screw"; one of a kind needs no count.</summary>
    public static string Counted(int count, string what) =>
        count == 1 ? what : string.Create(CultureInfo.CurrentCulture, $"{count} × {what}");

    /// <summary>A lot by name: the step's own words, or the shims at their place.</summary>
    public static string NameOf(StripStep step, ItemKind kind)
    {
        ArgumentNullException.ThrowIfNull(step);
        return kind == ItemKind.Part ? step.What : step.ShimPlace.Length > 0 ? $"shim, {step.ShimPlace}" : $"shim of {step.What}";
    }

    /// <summary>"2 shims under the left standard, 0.15 mm together"; null where there are none.</summary>
    public static string? Shims(string place, int count, double? millimetres) => count == 0 ? null
        : $"{count} {(count == 1 ? "shim" : "shims")} {place}".TrimEnd()
            + (millimetres is { } thick ? $", {thick.ToString("0.###", CultureInfo.CurrentCulture)} mm{(count == 1 ? "" : " together")}" : "");
}
