using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Parts;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.StripDown;

/// <summary>Nothing goes home with something left in the tray.</summary>
public sealed class NothingLeftTests(PostgresServer server)
{
    private static CancellationToken Cancel => StripBench.Cancel;

    private static Task<Result> Ready(StripBench bench) => bench.Leave(leaving => leaving.ReadyAsync(bench.Repair.Number, Cancel));

    private static async Task LetPass(StripBench bench, params StillMissing[] items)
    {
        foreach (var item in items)
            Assert.True((await bench.Leave(leaving => leaving.PassAsync(bench.Repair.Number, item, "test", Cancel))).IsDone);
    }

    private static Task LetPass(StripBench bench) =>
        LetPass(bench, StillMissing.ConsentToConditions, StillMissing.AfterServiceChecks, StillMissing.ServiceRecord, StillMissing.Invoice);

    private static async Task<Guid> Lot(StripBench bench, Guid step) => (await bench.Line(step)).Lots.First(lot => lot.Fate == ItemFate.StillOut).Id;

    private static async Task<Result> Account(StripBench bench, Guid step, FateFacts facts, int? count = null)
    {
        var lot = await Lot(bench, step);
        return await bench.Items(items => items.AccountAsync(bench.Repair.Id, lot, count, facts, Cancel));
    }

    [Fact]
    public async Task Ready_is_refused_naming_each_part_with_its_cell_and_what_else_is_missing_until_the_last_is_accounted_for()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var spring = await bench.Add(bench.Some("Cell spring", "B3") with { HeldBy = HeldBy.Spring, Remember = Remember.EasilyLost });
        var screws = await bench.Add(bench.Some("Top plate screw", "A1", 3) with { ShimPlace = "left post", ShimCount = 1 });
        await LetPass(bench, StillMissing.ConsentToConditions, StillMissing.AfterServiceChecks);
        var refused = Assert.IsType<PartsStillOut>((await Ready(bench)).Failure);
        Assert.Equal(
            ["Cell spring (tray 1, B3)", "3 × Top plate screw (tray 1, A1)", "shim, left post (tray 1, A1)"], refused.Items.Select(item => item.ToString()));
        Assert.Equal([StillMissing.ServiceRecord], refused.AlsoMissing);
        await LetPass(bench, StillMissing.ServiceRecord, StillMissing.Invoice);

        Assert.True((await bench.Items(items => items.RefitStepAsync(bench.Repair.Id, screws, "", Cancel))).IsDone);
        Assert.Equal("Cell spring (tray 1, B3)", $"{Assert.Single(Assert.IsType<PartsStillOut>((await Ready(bench)).Failure).Items)}");
        Assert.IsType<PartsStillOut>((await bench.Leave(leaving => leaving.CollectAsync(bench.Repair.Number, new HandedOver("Ines", true, ""), Cancel))).Failure);
        Assert.IsType<WriteOffReasonMissing>((await Account(bench, spring, new FateFacts(ItemFate.WrittenOff, ""))).Failure);
        Assert.True((await Account(bench, spring, new FateFacts(ItemFate.WrittenOff, "jumped into the floorboards"))).IsDone);
        Assert.True((await Ready(bench)).IsDone);
    }

    [Fact]
    public async Task The_owner_can_not_wave_parts_through()
    {
        await using var bench = await StripBench.OpenAsync(server);
        await bench.Add(bench.Some("Cell spring", "B3"));
        Assert.IsType<PartsOutCantPass>((await bench.Leave(leaving =>
            leaving.PassAsync(bench.Repair.Number, StillMissing.PartsStillOut, "it will be fine", Cancel))).Failure);
    }

    [Fact]
    public async Task A_screw_only_backed_off_and_a_struck_out_step_hold_nothing_up()
    {
        await using var bench = await StripBench.OpenAsync(server);
        await bench.Add(bench.Some("Eccentric") with { Remember = Remember.BackOffOnly });
        var wrong = await bench.Add(bench.Some("Ring"));
        await bench.Steps(steps => steps.StrikeOutAsync(bench.Repair.Id, wrong, "belongs to another camera", Cancel));
        await LetPass(bench);
        Assert.True((await Ready(bench)).IsDone);
    }

    [Fact]
    public async Task Nothing_comes_out_of_a_camera_that_is_called_ready()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Ring"));
        await bench.Items(items => items.RefitStepAsync(bench.Repair.Id, id, "", Cancel));
        await LetPass(bench);
        Assert.True((await Ready(bench)).IsDone);
        Assert.Equal(new RepairIsReady(bench.Repair.Number), (await bench.TryAdd(bench.Some("Ring"))).Failure);
        Assert.IsType<RepairIsReady>((await bench.Items(items => items.TakeOutAgainAsync(bench.Repair.Id, id, Cancel))).Failure);
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => bench.Shop.Db(db =>
            db.Database.ExecuteSqlAsync($"update strip_items set fate = 'StillOut' where step_id = {id}", Cancel)));
        Assert.Equal("nothing_out_of_a_ready_camera", refused.ConstraintName);
        Assert.True((await bench.Leave(leaving => leaving.CollectAsync(bench.Repair.Number, new HandedOver("Ines", true, ""), Cancel))).IsDone);
        Assert.Equal(new CameraHasGoneHome(bench.Repair.Number), (await bench.TryAdd(bench.Some("Ring"))).Failure);
    }

    [Fact]
    public async Task The_database_refuses_ready_when_something_came_out_after_the_list_was_read()
    {
        await using var bench = await StripBench.OpenAsync(server);
        await bench.Add(bench.Some("Ring"));
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => bench.Shop.Db(db =>
            db.Database.ExecuteSqlAsync($"update repairs set ready_at = now() where id = {bench.Repair.Id}", Cancel)));
        Assert.Equal("nothing_left_in_the_tray", refused.ConstraintName);
    }

    [Fact]
    public async Task Taking_out_and_calling_ready_at_once_never_leave_a_ready_camera_with_a_part_out()
    {
        await using var bench = await StripBench.OpenAsync(server);
        await LetPass(bench);
        for (var round = 0; round < 12; round++)
        {
            var (readying, taking) = (Ready(bench), bench.TryAdd(bench.Some($"Ring {round}")));
            var (ready, taken) = (await readying, await taking);
            Assert.True(ready.IsDone != taken.IsDone, $"Round {round}: ready {ready.Failure?.Message}, ring out {taken.Failure?.Message}");
            if (ready.IsDone)
                await bench.Leave(leaving => leaving.NotReadyAsync(bench.Repair.Number, Cancel));
            else
                await bench.Items(items => items.RefitStepAsync(bench.Repair.Id, taken.Value, "", Cancel));
        }
    }

    [Fact]
    public async Task A_replaced_part_is_the_one_fitted_on_this_repair_and_stands_for_no_more_than_were_fitted()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var springs = await bench.Add(bench.Some("Blade spring", "A1", 3));
        var use = await bench.Shop.Do<PartUseService, Result<Guid>>(parts => parts.UseAsync(
            bench.Repair.Id, new PartUseTyped("", "Blade spring, 0.2 mm", 2, "pcs", Provenance.Donor, null, 4, null), Guid.CreateVersion7(), Cancel));
        FateFacts By(Guid part) => new(ItemFate.Replaced, "", part, OldGoesBack: true);
        Assert.IsType<ReplacementNotHere>((await Account(bench, springs, By(Guid.CreateVersion7()))).Failure);
        Assert.Equal(new ReplacementUsedUp("Blade spring, 0.2 mm", 2, 0), (await Account(bench, springs, By(use.Value))).Failure);
        Assert.True((await Account(bench, springs, By(use.Value), 2)).IsDone);
        Assert.Equal(new ReplacementUsedUp("Blade spring, 0.2 mm", 2, 2), (await Account(bench, springs, By(use.Value), 1)).Failure);
        var replaced = (await bench.Line(springs)).Lots.Single(lot => lot.Fate == ItemFate.Replaced);
        Assert.Equal((2, "Blade spring, 0.2 mm", Provenance.Donor, true), (replaced.Count, replaced.ReplacedBy, replaced.Provenance, replaced.OldGoesBack));
        Assert.Equal(
            new PartStandsForRemoved("Blade spring, 0.2 mm", "Blade spring"),
            (await bench.Shop.Do<PartUseService, Result>(parts => parts.TakeOffAsync(bench.Repair.Id, use.Value, Cancel))).Failure);
        Assert.True((await bench.Items(items => items.TakeBackAsync(bench.Repair.Id, replaced.Id, Cancel))).IsDone);
        Assert.True((await bench.Shop.Do<PartUseService, Result>(parts => parts.TakeOffAsync(bench.Repair.Id, use.Value, Cancel))).IsDone);
        Assert.Equal(3, Assert.Single((await bench.Line(springs)).Lots).Count);
    }

    [Fact]
    public async Task One_bath_washes_many_parts_and_leaves_what_it_does_not_say()
    {
        await using var bench = await StripBench.OpenAsync(server);
        foreach (var what in new[] { "Gear", "Pallet", "Ring" })
            await bench.Add(bench.Some(what));
        var lots = (await bench.Record()).Steps.Select(step => step.Lots[0].Id).ToList();
        await bench.Items(items => items.WashAsync(bench.Repair.Id, lots[0], new WashFacts("", true, null, Lubrication.Lubricated, "Light oil", "pivots"), Cancel));
        var bath = new BathFacts("Naphtha", null, null, "", "");
        Assert.Equal(2, (await bench.Shop.Do<StripItemService, Result<int>>(items => items.WashManyAsync(bench.Repair.Id, lots.Take(2).ToList(), bath, Cancel))).Value);
        var washed = (await bench.Record()).Steps.Select(step => step.Lots[0].Wash).ToList();
        Assert.Equal(new WashFacts("Naphtha", true, null, Lubrication.Lubricated, "Light oil", "pivots"), washed[0]);
        Assert.Equal(["Naphtha", "Naphtha", ""], washed.Select(wash => wash.CleanedHow));
        Assert.IsType<FindingOfAnotherRepair>((await bench.Items(items =>
            items.WashAsync(bench.Repair.Id, lots[0], washed[0] with { FindingId = Guid.CreateVersion7() }, Cancel))).Failure);
    }

    [Fact]
    public async Task Two_people_ticking_off_the_same_step_tick_it_once()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Screw", "A1", 4));
        var ticks = await Task.WhenAll(Enumerable.Range(0, 6).Select(i => bench.Items(
            items => items.RefitStepAsync(bench.Repair.Id, id, "", Cancel), i % 2 == 0 ? bench.Shop.Mender : bench.Shop.Helper)));
        Assert.All(ticks, tick => Assert.Null(tick.Failure));
        Assert.Equal((4, ItemFate.Refitted), (Assert.Single((await bench.Line(id)).Lots).Count, (await bench.Line(id)).Lots[0].Fate));
    }

    [Fact]
    public async Task Trays_keep_what_lies_in_them()
    {
        await using var bench = await StripBench.OpenAsync(server);
        await bench.Add(bench.Some("Ring", "C5"));
        var tray = Assert.Single((await bench.Record()).Trays);
        Task<Result> Change(TrayTyped typed) => bench.Shop.Do<TrayService, Result>(trays => trays.ChangeAsync(bench.Repair.Id, tray.Id, typed, Cancel));
        Assert.Equal(new TrayTooSmall("1", "C5"), (await Change(new TrayTyped("1", 3, 4, tray.Version))).Failure);
        Assert.IsType<TraySizeOutOfRange>((await Change(new TrayTyped("1", 21, 4, tray.Version))).Failure);
        Assert.True((await Change(new TrayTyped("Lid", 3, 5, tray.Version))).IsDone);
        Assert.IsType<ChangedMeanwhile>((await Change(new TrayTyped("Box", 4, 5, tray.Version))).Failure);
        Assert.IsType<TrayInUse>((await bench.Shop.Do<TrayService, Result>(trays => trays.RemoveAsync(bench.Repair.Id, tray.Id, Cancel))).Failure);
        Assert.Equal(new TrayNameTaken("Lid"), (await bench.Shop.Do<TrayService, Result<Guid>>(trays =>
            trays.AddAsync(bench.Repair.Id, new TrayTyped("Lid", 2, 2, 0), Guid.CreateVersion7(), Cancel))).Failure);
    }
}
