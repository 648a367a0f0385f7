using RepairShop.Domain.Parts;
using RepairShop.Domain.StripDown;
using Xunit;

namespace RepairShop.Domain.Tests.StripDown;

public sealed class ItemRulesTests
{
    private static Results.Result<StripItem> Account(StripStep step, FateFacts facts, int? count = null) =>
        ItemRules.Account(step, step.Items[0].Id, count, facts, Bench.Now, Bench.Mender);

    [Fact]
    public void Of_four_screws_one_is_replaced_and_three_go_back()
    {
        var step = Bench.Step(Bench.Some("Screw", 4));
        Assert.True(Account(step, new FateFacts(ItemFate.Replaced, "", null, "M1.4 × 2", Provenance.Donor, true), 1).IsDone);
        Assert.True(Account(step, new FateFacts(ItemFate.Refitted, "thread locked")).IsDone);
        Assert.Equal([(3, ItemFate.Refitted), (1, ItemFate.Replaced)], step.Items.Select(lot => (lot.Count, lot.Fate)));
        Assert.Equal(0, StripProgress.Of([step]).Out);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void No_more_can_be_accounted_for_than_came_out(int count) =>
        Assert.Equal(new ItemCountOutOfRange(count, 2), Account(Bench.Step(Bench.Some(count: 2)), new FateFacts(ItemFate.Refitted, ""), count).Failure);

    [Fact]
    public void Writing_off_needs_a_reason_and_replacing_a_part_and_where_it_came_from()
    {
        Assert.IsType<WriteOffReasonMissing>(Account(Bench.Step(), new FateFacts(ItemFate.WrittenOff, " ")).Failure);
        Assert.IsType<ReplacementMissing>(Account(Bench.Step(), new FateFacts(ItemFate.Replaced, "", null, "", Provenance.New)).Failure);
        Assert.IsType<ReplacementMissing>(Account(Bench.Step(), new FateFacts(ItemFate.Replaced, "", null, "New spring")).Failure);
    }

    [Fact]
    public void What_is_accounted_for_is_taken_back_before_it_becomes_something_else()
    {
        var step = Bench.Step(Bench.Some("Screw", 2));
        Account(step, new FateFacts(ItemFate.Refitted, ""), 1);
        Assert.Equal(new ItemAccounted("Screw", ItemFate.Refitted), ItemRules.Account(
            step, step.Items[1].Id, null, new FateFacts(ItemFate.WrittenOff, "lost"), Bench.Now, Bench.Mender).Failure);
        Assert.True(ItemRules.TakeBack(step, step.Items[1].Id).IsDone);
        Assert.Equal([(2, ItemFate.StillOut)], step.Items.Select(lot => (lot.Count, lot.Fate)));
        Assert.IsType<ItemStillOut>(ItemRules.TakeBack(step, step.Items[0].Id).Failure);
    }

    [Fact]
    public void What_went_through_the_wash_differently_stays_apart()
    {
        var step = Bench.Step(Bench.Some("Gear", 2));
        var lot = Account(step, new FateFacts(ItemFate.Refitted, ""), 1).Value!;
        Assert.True(ItemRules.Wash(lot, new WashFacts("Isopropyl alcohol", true, null, Lubrication.LeftDry, "", "")).IsDone);
        ItemRules.TakeBack(step, lot.Id);
        Assert.Equal([1, 1], step.Items.Select(one => one.Count));
    }

    [Fact]
    public void Lubricated_says_with_what_and_left_dry_forgets_it()
    {
        var lot = new StripItem { Count = 1 };
        Assert.IsType<LubricantMissing>(ItemRules.Wash(lot, new WashFacts("", false, null, Lubrication.Lubricated, " ", "pivots")).Failure);
        Assert.True(ItemRules.Wash(lot, new WashFacts("", false, null, Lubrication.Lubricated, "Light oil", "pivots")).IsDone);
        Assert.Equal(("Light oil", "pivots"), (lot.Lubricant, lot.LubricatedWhere));
        Assert.True(ItemRules.Wash(lot, new WashFacts("", false, null, Lubrication.LeftDry, "Light oil", "pivots")).IsDone);
        Assert.Equal(("", ""), (lot.Lubricant, lot.LubricatedWhere));
    }

    [Fact]
    public void A_declined_camera_goes_back_as_received_only_when_every_piece_is_refitted()
    {
        var step = Bench.Step(Bench.Some("Screw", 2));
        Assert.Null(StripProgress.Of([]).DeclinedOutcome);
        Assert.Null(StripProgress.Of([step]).DeclinedOutcome);
        Account(step, new FateFacts(ItemFate.Refitted, ""), 1);
        Assert.Null(StripProgress.Of([step]).DeclinedOutcome);
        Account(step, new FateFacts(ItemFate.Refitted, ""));
        Assert.Equal("returned as received, reassembled", StripProgress.Of([step]).DeclinedOutcome);
        ItemRules.TakeBack(step, step.Items[0].Id);
        Account(step, new FateFacts(ItemFate.WrittenOff, "broke when it was turned"));
        Assert.Equal("reassembled, but not as received: 1 written off", StripProgress.Of([step]).DeclinedOutcome);
    }
}
