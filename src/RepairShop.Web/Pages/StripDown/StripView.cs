using RepairShop.Domain.StripDown;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>A repair with its strip-down, for every page of the room.</summary>
public sealed record StripView(RepairHead Repair, StripRecord Record)
{
    public string At => $"repairs/{Uri.EscapeDataString(Repair.Number)}/strip-down";

    /// <summary>Some part is, or was, held under tension: the caution is due before a hand goes in.</summary>
    public bool HasTension => Record.Kept.Any(step =>
        step.Facts.HeldBy == HeldBy.Spring || step.Facts.Remember.HasFlag(Remember.UnderTension));

    public static string ProgressWords(StripProgress progress) => progress switch
    {
        { HasStarted: false } => "nothing taken out yet",
        { Out: 0 } when progress.Done == progress.All => $"all {progress.All} accounted for",
        { Done: 0 } => progress.Out == 1 ? "1 piece out" : $"{progress.Out} pieces out",
        _ => $"{progress.Done} of {progress.All} accounted for, {progress.Out} still out",
    };

    public static async Task<StripView?> LoadAsync(WorkService work, StripDownService strip, string number, CancellationToken ct) =>
        await work.FindAsync(number, ct) is { } repair ? new StripView(repair, await strip.OfAsync(repair.Id, ct)) : null;
}

/// <summary>A tray to be drawn.</summary>
/// <param name="Small">Counts and marks only; the names are there for screen readers.</param>
public sealed record TrayPicture(StripView Strip, TrayLine Tray, bool Small);

/// <summary>What a step holds, for the partial of its fields.</summary>
public sealed record StepFieldsView(IReadOnlyList<TrayLine> Trays, IReadOnlyList<string> Words);
