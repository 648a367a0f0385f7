using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.StripDown;

public sealed class StripStepServiceTests(PostgresServer server)
{
    private static CancellationToken Cancel => StripBench.Cancel;

    private static async Task<string[]> Order(StripBench bench) => [.. (await bench.Record()).Kept.Select(step => step.Facts.What)];

    [Fact]
    public async Task Steps_stand_in_the_order_of_taking_apart_wherever_they_were_inserted_or_moved()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var first = await bench.Add(bench.Some("Name ring"));
        var third = await bench.Add(bench.Some("Front cell"));
        await bench.Add(bench.Some("Setting ring"), new StepEntry(Guid.CreateVersion7(), first));
        Assert.Equal(["Name ring", "Setting ring", "Front cell"], await Order(bench));
        Assert.True((await bench.Steps(steps => steps.MoveAsync(bench.Repair.Id, third, null, Cancel))).IsDone);
        Assert.Equal(["Front cell", "Name ring", "Setting ring"], await Order(bench));
        Assert.True((await bench.Steps(steps => steps.MoveAsync(bench.Repair.Id, first, third, Cancel))).IsDone);
        Assert.Equal(["Front cell", "Name ring", "Setting ring"], await Order(bench));
        Assert.IsType<StripStepNotFound>((await bench.Steps(steps => steps.MoveAsync(bench.Repair.Id, first, Guid.CreateVersion7(), Cancel))).Failure);
    }

    [Fact]
    public async Task Inserting_forty_times_at_the_same_place_uses_up_the_room_and_keeps_the_order()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var first = await bench.Add(bench.Some("first"));
        await bench.Add(bench.Some("last"));
        for (var i = 0; i < 40; i++)
            await bench.Add(bench.Some($"{i}"), new StepEntry(Guid.CreateVersion7(), first));
        string[] expected = ["first", .. Enumerable.Range(0, 40).Reverse().Select(i => $"{i}"), "last"];
        Assert.Equal(expected, await Order(bench));
    }

    [Fact]
    public async Task An_entry_sent_again_from_the_queue_of_a_device_is_kept_once_even_when_it_was_corrected_in_between()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var entry = new StepEntry(Guid.CreateVersion7(), FromQueue: true);
        var id = await bench.Add(bench.Some("Spring", "A1"), entry);
        var version = (await bench.Line(id)).Version;
        await bench.Steps(steps => steps.CorrectAsync(bench.Repair.Id, id, bench.Some("Cell spring", "A1", 2), version, Cancel));
        Assert.Equal(id, await bench.Add(bench.Some("Spring", "A1"), entry));
        var step = Assert.Single((await bench.Record()).Steps);
        Assert.Equal(("Cell spring", 2), (step.Facts.What, step.Facts.Count));
    }

    [Fact]
    public async Task Fifty_entries_replayed_by_two_devices_at_once_are_fifty_steps()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var queue = Enumerable.Range(0, 50).Select(i => (Facts: bench.Some($"Part {i}"), Entry: new StepEntry(Guid.CreateVersion7(), FromQueue: true))).ToList();
        async Task Replay(Guid by)
        {
            foreach (var (facts, entry) in queue)
                await bench.Add(facts, entry, by);
        }

        await Task.WhenAll(Replay(bench.Shop.Mender), Replay(bench.Shop.Helper), Replay(bench.Shop.Mender));
        var record = await bench.Record();
        Assert.Equal(queue.Select(one => one.Entry.Id), record.Steps.Select(step => step.Id));
        Assert.Equal(50, record.Progress.Out);
    }

    [Fact]
    public async Task A_form_sent_twice_is_one_step_and_the_same_form_with_other_words_is_another()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var entry = new StepEntry(Guid.CreateVersion7());
        await bench.Add(bench.Some(" Name  ring", "a1"), entry);
        await bench.Add(bench.Some(" Name  ring", "a1"), entry);
        await bench.Add(bench.Some("Setting ring", "A2"), entry);
        Assert.Equal(["Name  ring", "Setting ring"], await Order(bench));
    }

    [Fact]
    public async Task Two_people_at_one_repair_both_write_and_neither_loses_a_step()
    {
        await using var bench = await StripBench.OpenAsync(server);
        async Task Write(Guid by, string name)
        {
            for (var i = 0; i < 15; i++)
                await bench.Add(bench.Some($"{name} {i}"), by: by);
        }

        await Task.WhenAll(Write(bench.Shop.Mender, "m"), Write(bench.Shop.Helper, "h"));
        var order = await Order(bench);
        Assert.Equal(30, order.Length);
        Assert.Equal(Enumerable.Range(0, 15).Select(i => $"m {i}"), order.Where(what => what[0] == 'm'));
        Assert.Equal(Enumerable.Range(0, 15).Select(i => $"h {i}"), order.Where(what => what[0] == 'h'));
    }

    [Fact]
    public async Task Two_people_correcting_one_step_see_both_values()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Ring"));
        var opened = (await bench.Line(id)).Version;
        Assert.True((await bench.Steps(steps => steps.CorrectAsync(bench.Repair.Id, id, bench.Some("Name ring"), opened, Cancel))).IsDone);
        var clash = await bench.Steps(steps => steps.CorrectAsync(bench.Repair.Id, id, bench.Some("Setting ring"), opened, Cancel), bench.Shop.Helper);
        var changed = Assert.IsType<ChangedMeanwhile>(clash.Failure);
        Assert.Contains(new FieldDifference("What", "Name ring", "Setting ring"), changed.Differences);
    }

    [Fact]
    public async Task A_correction_is_undone_and_done_again()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Screw", "A1", 4));
        Assert.False((await bench.Line(id)).CanUndo);
        await bench.Steps(async steps => await steps.CorrectAsync(bench.Repair.Id, id, bench.Some("Long screw", "A2", 2), (await bench.Line(id)).Version, Cancel));
        Task<Result> Undo() => bench.Steps(steps => steps.UndoCorrectionAsync(bench.Repair.Id, id, Cancel));
        Assert.True((await Undo()).IsDone);
        Assert.Equal(("4 × Screw", "A1", 4), ((await bench.Line(id)).Name, (await bench.Line(id)).Place, (await bench.Record()).Progress.Out));
        Assert.True((await Undo()).IsDone);
        Assert.Equal(("2 × Long screw", "A2", 2), ((await bench.Line(id)).Name, (await bench.Line(id)).Place, (await bench.Record()).Progress.Out));
    }

    [Fact]
    public async Task A_step_is_split_right_behind_itself_and_joined_again()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Screws", "A1", 4));
        await bench.Add(bench.Some("Top plate"));
        var split = await bench.Shop.Do<StripStepService, Result<Guid>>(steps => steps.SplitAsync(bench.Repair.Id, id, 1, "Long screw", Cancel));
        Assert.Equal(["Screws", "Long screw", "Top plate"], await Order(bench));
        Assert.Equal(5, (await bench.Record()).Progress.Out);
        Assert.True((await bench.Steps(steps => steps.JoinAsync(bench.Repair.Id, split.Value, Cancel))).IsDone);
        Assert.Equal(["4 × Screws", "Top plate"], (await bench.Record()).Kept.Select(step => step.Name));
        Assert.Equal(5, (await bench.Record()).Progress.Out);
    }

    [Fact]
    public async Task A_struck_out_step_stays_in_the_record_with_its_reason_and_can_be_brought_back()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Screw", "A1", 3));
        Assert.True((await bench.Steps(steps => steps.StrikeOutAsync(bench.Repair.Id, id, "typed on the wrong repair", Cancel))).IsDone);
        var record = await bench.Record();
        Assert.Equal(("typed on the wrong repair", 0, 0), (record.Steps[0].StruckOut, record.Steps[0].No, record.Progress.Removed));
        Assert.True((await bench.Steps(steps => steps.BringBackAsync(bench.Repair.Id, id, Cancel))).IsDone);
        Assert.Equal(3, (await bench.Record()).Progress.Out);
    }

    [Fact]
    public async Task The_next_entry_begins_as_the_last_one_did_in_the_next_free_cell()
    {
        await using var bench = await StripBench.OpenAsync(server);
        Assert.Equal(new NextEntry(HeldBy.Screw, bench.Tray, "A1"), (await bench.Record()).Next);
        await bench.Add(bench.Some("Ring", "A1") with { HeldBy = HeldBy.Ring });
        Assert.Equal(new NextEntry(HeldBy.Ring, bench.Tray, "A2"), (await bench.Record()).Next);
        bench.Shop.Clock.Now = bench.Shop.Clock.Now.AddMinutes(1);
        await bench.Add(bench.Some("Spring", "B6") with { HeldBy = HeldBy.Spring });
        Assert.Equal(new NextEntry(HeldBy.Spring, bench.Tray, "C1"), (await bench.Record()).Next);
    }

    [Fact]
    public async Task Reading_four_hundred_steps_asks_the_database_no_more_often_than_reading_three()
    {
        await using var bench = await StripBench.OpenAsync(server);
        async Task<int> Statements(Func<Task> work)
        {
            using var counter = new StatementCounter();
            await work();
            return counter.Count;
        }

        for (var i = 0; i < 3; i++)
            await bench.Add(bench.Some($"Part {i}", $"A{i + 1}"));
        var few = (Read: await Statements(bench.Record), Leave: await Statements(() => bench.Leave(leaving => leaving.ReadyAsync(bench.Repair.Number, Cancel))),
            Add: await Statements(() => bench.Add(bench.Some("Part 3", "B1"))));
        await bench.Shop.Db(async db =>
        {
            for (var i = 4; i < 400; i++)
            {
                var step = new StripStep { RepairId = bench.Repair.Id, Rank = i * StripOrder.Gap * 10, TakenAt = bench.Shop.Clock.Now };
                StepRules.Write(step, bench.Some($"Part {i}", count: 2), null);
                db.Add(step);
            }
            await db.SaveChangesAsync(Cancel);
        });
        var many = (Read: await Statements(bench.Record), Leave: await Statements(() => bench.Leave(leaving => leaving.ReadyAsync(bench.Repair.Number, Cancel))),
            Add: await Statements(() => bench.Add(bench.Some("Part 400", "B2"))));
        Assert.Equal(400 + 1, (await bench.Record()).Steps.Count);
        Assert.Equal(few, many);
        Assert.True(many is { Read: 3, Add: <= 8 }, $"{many}");
    }

    [Fact]
    public async Task The_database_itself_refuses_lots_that_do_not_add_up()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Screw", "A1", 4));
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => bench.Shop.Db(db =>
            db.Database.ExecuteSqlAsync($"update strip_items set count = 3 where step_id = {id}", Cancel)));
        Assert.Equal("strip_items_conserved", refused.ConstraintName);
        refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => bench.Shop.Db(db =>
            db.Database.ExecuteSqlAsync($"update strip_steps set count = 5 where id = {id}", Cancel)));
        Assert.Equal("strip_items_conserved", refused.ConstraintName);
        refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => bench.Shop.Db(db =>
            db.Database.ExecuteSqlAsync($"delete from strip_items where step_id = {id}", Cancel)));
        Assert.Equal("strip_items_conserved", refused.ConstraintName);
    }

    [Fact]
    public async Task A_photo_of_a_step_sent_again_is_kept_once()
    {
        await using var bench = await StripBench.OpenAsync(server);
        var id = await bench.Add(bench.Some("Screw"));
        var photo = new PhotoFile("a.jpg", await File.ReadAllBytesAsync(Seed.Photo("tray.jpg"), Cancel));
        for (var i = 0; i < 2; i++)
            Assert.Equal(1, (await bench.Shop.Do<PhotoService, Result<PhotosTaken>>(photos => photos.AddAsync(bench.Repair.Number, [photo], Cancel, stepId: id))).Value!.Count);
        Assert.Single((await bench.Line(id)).Photos);
        Assert.Empty(await bench.Shop.Do<PhotoService, IReadOnlyList<PhotoView>>(photos => photos.OfRepairAsync(bench.Repair.Id, Cancel)));
    }
}
