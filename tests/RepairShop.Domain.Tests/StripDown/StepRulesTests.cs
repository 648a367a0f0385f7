using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using Xunit;

namespace RepairShop.Domain.Tests.StripDown;

public sealed class StepRulesTests
{
    private static Failure? Refused(StepFacts facts, Tray? tray = null) => StepRules.Write(new StripStep(), facts, tray).Failure;

    [Fact]
    public void A_step_removes_as_many_as_it_says_and_its_shims_beside_them()
    {
        var step = Bench.Step(Bench.Some("Lens board", 1) with { ShimPlace = "left, under the board", ShimCount = 2, ShimMillimetres = 0.15 });
        Assert.Equal([(ItemKind.Part, 1), (ItemKind.Shim, 2)], step.Items.Select(lot => (lot.Kind, lot.Count)));
        Assert.All(step.Items, lot => Assert.Equal(ItemFate.StillOut, lot.Fate));
    }

    [Fact]
    public void A_screw_that_is_only_backed_off_removes_nothing()
    {
        var step = Bench.Step(Bench.Some("Eccentric screw", 2) with { Remember = Remember.BackOffOnly | Remember.LeftHandThread });
        Assert.Empty(step.Items);
        Assert.Equal((0, 2), (step.Removed(ItemKind.Part), step.Count));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(1000)]
    public void A_count_nobody_can_lay_in_a_cell_is_refused(int count) =>
        Assert.Equal(new StripCountOutOfRange(count), Refused(Bench.Some(count: count)));

    [Fact]
    public void The_boundaries_of_what_a_step_may_say()
    {
        Assert.Null(Refused(Bench.Some(count: 999)));
        Assert.Null(Refused(Bench.Some(count: 0) with { ShimPlace = "mount", ShimCount = 1 }));
        Assert.IsType<WhatCameOffMissing>(Refused(Bench.Some(" \t ")));
        Assert.IsType<ShimWithoutCount>(Refused(Bench.Some() with { ShimMillimetres = 0.1 }));
        Assert.IsType<ShimPlaceMissing>(Refused(Bench.Some() with { ShimCount = 1 }));
        Assert.IsType<ShimCountOutOfRange>(Refused(Bench.Some() with { ShimCount = -1 }));
        Assert.IsType<ShimThicknessOutOfRange>(Refused(Bench.Some() with { ShimPlace = "mount", ShimCount = 1, ShimMillimetres = 0 }));
        Assert.IsType<ShimThicknessOutOfRange>(Refused(Bench.Some() with { ShimPlace = "mount", ShimCount = 1, ShimMillimetres = double.NaN }));
        Assert.Null(Refused(Bench.Some() with { ShimPlace = "mount", ShimCount = 1, ShimMillimetres = 20 }));
        Assert.IsType<BackedOffShims>(Refused(Bench.Some() with { Remember = Remember.BackOffOnly, ShimPlace = "mount", ShimCount = 1 }));
    }

    [Theory]
    [InlineData("D6", null)]
    [InlineData(" d 6 ", null)]
    [InlineData("E1", typeof(CellNotInTray))]
    [InlineData("A7", typeof(CellNotInTray))]
    [InlineData("7A", typeof(CellNotUnderstood))]
    [InlineData("A0", typeof(CellNotUnderstood))]
    public void A_cell_is_a_letter_and_a_number_inside_its_tray(string cell, Type? failure) =>
        Assert.Equal(failure, Refused(Bench.InCell("Ring", cell), Bench.Tray)?.GetType());

    [Fact]
    public void A_cell_without_a_tray_is_refused() => Assert.IsType<CellWithoutTray>(Refused(Bench.Some() with { Cell = "A1" }));

    [Fact]
    public void A_corrected_count_changes_only_what_is_still_out()
    {
        var step = Bench.Step(Bench.Some("Screw", 4));
        ItemRules.Account(step, step.Items[0].Id, 3, new FateFacts(ItemFate.Refitted, ""), Bench.Now, Bench.Mender);
        Assert.Equal(new CountBelowAccounted("Screw", 2, 3), StepRules.Write(step, Bench.Some("Screw", 2), null).Failure);
        Assert.True(StepRules.Write(step, Bench.Some("Screw", 3), null).IsDone);
        Assert.Equal([(3, ItemFate.Refitted)], step.Items.Select(lot => (lot.Count, lot.Fate)));
        Assert.True(StepRules.Write(step, Bench.Some("Screw", 5), null).IsDone);
        Assert.Equal([(3, ItemFate.Refitted), (2, ItemFate.StillOut)], step.Items.Select(lot => (lot.Count, lot.Fate)));
        Assert.IsType<BackOffRemoved>(StepRules.Write(step, Bench.Some("Screw", 5) with { Remember = Remember.BackOffOnly }, null).Failure);
    }

    [Fact]
    public void Splitting_gives_some_of_what_is_still_out_a_step_of_its_own_and_joining_takes_it_back()
    {
        var step = Bench.Step(Bench.Some("Screws", 4));
        ItemRules.Account(step, step.Items[0].Id, 1, new FateFacts(ItemFate.Refitted, ""), Bench.Now, Bench.Mender);
        Assert.Equal(new SplitCountOutOfRange(4, 3, 3), StepRules.Split(step, 4, "Long screws", Guid.CreateVersion7()).Failure);
        var other = StepRules.Split(step, 2, "Long screws", Guid.CreateVersion7()).Value!;
        Assert.Equal((2, 2, 2, 2), (step.Count, Bench.Pieces(step), other.Count, Bench.Pieces(other)));
        Assert.True(StepRules.Join(step, other).IsDone);
        Assert.Equal((4, 4, 0), (step.Count, Bench.Pieces(step), Bench.Pieces(other)));
        Assert.IsType<NotSplitOff>(StepRules.Join(step, Bench.Step()).Failure);
    }

    [Fact]
    public void One_piece_can_not_be_split()
    {
        Assert.IsType<SplitCountOutOfRange>(StepRules.Split(Bench.Step(), 1, "Half", Guid.CreateVersion7()).Failure);
        Assert.IsType<WhatCameOffMissing>(StepRules.Split(Bench.Step(Bench.Some(count: 2)), 1, "", Guid.CreateVersion7()).Failure);
    }

    [Fact]
    public void Striking_out_needs_a_reason_and_nothing_accounted_and_can_be_undone()
    {
        var step = Bench.Step(Bench.Some("Screw", 2));
        Assert.IsType<StrikeOutReasonMissing>(StepRules.StrikeOut(step, " ", Bench.Now).Failure);
        var lot = ItemRules.Account(step, step.Items[0].Id, 1, new FateFacts(ItemFate.Refitted, ""), Bench.Now, Bench.Mender).Value!;
        Assert.IsType<StrikeOutAccounted>(StepRules.StrikeOut(step, "typed twice", Bench.Now).Failure);
        Assert.True(ItemRules.TakeBack(step, lot.Id).IsDone);
        Assert.True(StepRules.StrikeOut(step, "typed twice", Bench.Now).IsDone);
        Assert.Equal((0, 0), (Bench.Pieces(step), step.Removed(ItemKind.Part)));
        Assert.IsType<StepIsStruckOut>(StepRules.Write(step, Bench.Some(), null).Failure);
        StepRules.BringBack(step);
        Assert.Equal(2, Bench.Pieces(step));
    }
}
