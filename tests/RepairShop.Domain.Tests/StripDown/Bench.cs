using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Tests.StripDown;

/// <summary>Steps for tests that care about one thing at a time.</summary>
internal static class Bench
{
    public static readonly DateTimeOffset Now = new(2026, 11, 24, 9, 0, 0, TimeSpan.Zero);

    public static readonly Guid Mender = Guid.CreateVersion7();

    public static readonly Tray Tray = new() { Name = "1", Rows = 4, Columns = 6 };

    public static StepFacts Some(string what = "Front ring", int count = 1) =>
        new(what, count, HeldBy.Screw, Remember.None, "", "", 0, null, null, "");

    public static StripStep Step(StepFacts? facts = null)
    {
        var step = new StripStep { TakenAt = Now, TakenBy = Mender };
        Xunit.Assert.Null(StepRules.Write(step, facts ?? Some(), facts?.TrayId is null ? null : Tray).Failure);
        return step;
    }

    public static StepFacts InCell(string what, string cell) => Some(what) with { TrayId = Tray.Id, Cell = cell };

    public static int Pieces(StripStep step) => step.Items.Sum(lot => lot.Count);
}
