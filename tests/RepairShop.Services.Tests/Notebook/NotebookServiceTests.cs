using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;
using RepairShop.Services.Notebook;
using RepairShop.Services.StripDown;
using RepairShop.Testing;
using Xunit;
using static RepairShop.Services.Tests.Notebook.Pages;

namespace RepairShop.Services.Tests.Notebook;

public sealed class NotebookServiceTests(PostgresServer server)
{
    [Fact]
    public async Task A_fault_is_counted_once_a_repair_and_only_over_repairs_of_the_model()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        await shop.Entry(page, Typed(EntryKind.Fault, "Shutter blades", "Oil creeps in."));
        await shop.Entry(page, Typed(EntryKind.Fault, "Bellows"));
        var (one, two, clean, other) = (await shop.Repair("example works", "LARK"), await shop.Repair("Example Works", "Lark"), await shop.Repair("Example Works", "Lark"), await shop.Repair("Example Works", "Lark II"));
        await shop.Found(one, "Shutter blades", Condition.Contaminated);
        await shop.Found(one, "shutter blades ", Condition.Worn);
        await shop.Found(two, "SHUTTER BLADES", Condition.Damaged);
        await shop.Found(two, "Mirror", Condition.Worn);
        await shop.Found(two, "Mirror", Condition.Worn, finding => finding.RemovedAt = shop.Clock.Now);
        await shop.Found(clean, "Shutter blades", Condition.Sound);
        await shop.Found(other, "Shutter blades", Condition.Worn);
        await shop.Repair("Example Works", "Lark");
        var view = await shop.Read(page);
        Assert.Equal((4, 3), (view.Workshop.Repairs, view.Workshop.WithFindings));
        Assert.Equal([("shutter blades", 2), ("mirror", 1)], view.Workshop.Faults.Select(fault => (fault.Component.Trim().ToLowerInvariant(), fault.Repairs)));
        Assert.Equal([2, 0], view.Of(EntryKind.Fault).Select(fault => fault.Met));
        Assert.Equal(4, view.Workshop.Earlier.Count);
    }

    [Fact]
    public async Task A_gauge_shows_what_was_measured_of_it_here_in_its_own_unit()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        await shop.Entry(page, Typed(EntryKind.Gauge, "Self-timer run") with { Unit = "s", Low = 8, High = 12 });
        var repair = await shop.Repair("Example Works", "Lark");
        foreach (var value in new[] { 7.9, 9.2 })
            await shop.Found(repair, "Self-timer", Condition.Worn, finding => (finding.GaugeName, finding.GaugeValue, finding.GaugeUnit) = ("self-timer run", value, "s"));
        await shop.Found(repair, "Self-timer", Condition.Worn, finding => (finding.GaugeName, finding.GaugeValue, finding.GaugeUnit) = ("Self-timer run", 40, "turns"));
        var gauge = Assert.Single((await shop.Read(page)).Of(EntryKind.Gauge));
        Assert.Equal((2, 7.9, 9.2), (gauge.Measured!.Count, gauge.Measured.Lowest, gauge.Measured.Highest));
    }

    [Fact]
    public async Task One_page_a_model_however_its_name_is_typed_until_the_first_is_removed()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var first = await shop.Page("Example Works", "Lark");
        Task<Result<Guid>> Again() => shop.Do<NotebookService, Result<Guid>>(pages => pages.StartAsync(new ModelTyped("EXAMPLE works", "lark", "", "", 0), Guid.CreateVersion7(), Ct));
        Assert.IsType<ModelHasPage>((await Again()).Failure);
        Assert.True((await shop.Do<NotebookService, Result>(pages => pages.RemoveAsync(first, Ct))).IsDone);
        Assert.True((await Again()).IsDone);
        Assert.IsType<ModelHasPage>((await shop.Do<NotebookService, Result>(pages => pages.BringBackAsync(first, Ct))).Failure);
    }

    [Fact]
    public async Task Two_tabs_on_one_entry_one_variant_and_one_page_see_both_values()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        var entry = await shop.Entry(page, Typed(EntryKind.Tool, "Spanner"));
        var variant = await shop.Variant(page, "First", "rewind: knob");
        var opened = await shop.Read(page);
        Task<Result> Entry(string text) => shop.Do<EntryService, Result>(entries => entries.ChangeAsync(page, entry, opened.Entries[0].Typed with { Text = text }, Ct));
        Task<Result> Variant(string traits) => shop.Do<VariantService, Result>(variants => variants.ChangeAsync(page, variant, opened.Variants[0].Typed with { Traits = traits }, Ct));
        Task<Result> Head(string notes) => shop.Do<NotebookService, Result>(pages => pages.ChangeAsync(page, opened.Head with { Notes = notes }, Ct));
        foreach (var (change, field) in new (Func<string, Task<Result>>, string)[] { (Entry, "Text"), (Variant, "Traits"), (Head, "Notes") })
        {
            Assert.True((await change("one: 1")).IsDone);
            var changed = Assert.IsType<ChangedMeanwhile>((await change("two: 2")).Failure);
            Assert.Equal(new FieldDifference(field, "one: 1", "two: 2"), Assert.Single(changed.Differences));
        }
    }

    [Fact]
    public async Task What_is_removed_can_be_brought_back_where_it_was_and_belongs_to_its_own_page()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (page, other) = (await shop.Page("Example Works", "Lark"), await shop.Page("Example Works", "Wren"));
        var first = await shop.Entry(page, Typed(EntryKind.Tool, "Spanner"));
        await shop.Entry(page, Typed(EntryKind.Tool, "Rubber bung"));
        Assert.IsType<ModelEntryNotFound>((await shop.Do<EntryService, Result>(entries => entries.RemoveAsync(other, first, Ct))).Failure);
        Assert.True((await shop.Do<EntryService, Result>(entries => entries.RemoveAsync(page, first, Ct))).IsDone);
        Assert.Equal(["Rubber bung"], (await shop.Read(page)).Entries.Select(entry => entry.Typed.Title));
        await shop.Do<EntryService, Result>(entries => entries.BringBackAsync(page, first, Ct));
        Assert.Equal(["Spanner", "Rubber bung"], (await shop.Read(page)).Entries.Select(entry => entry.Typed.Title));
    }

    [Fact]
    public async Task The_same_form_sent_twice_adds_one_entry_and_a_changed_one_adds_another()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        var once = Guid.CreateVersion7();
        foreach (var title in new[] { "Spanner", "Spanner", "Bung" })
            Done(await shop.Do<EntryService, Result<Guid>>(entries => entries.AddAsync(page, Typed(EntryKind.Tool, title), once, Ct)));
        Assert.Equal(["Spanner", "Bung"], (await shop.Read(page)).Entries.Select(entry => entry.Typed.Title));
    }

    [Fact]
    public async Task The_same_form_sent_again_after_its_entry_was_removed_or_on_another_page_is_kept()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (page, other) = (await shop.Page("Example Works", "Lark"), await shop.Page("Example Works", "Wren"));
        var once = Guid.CreateVersion7();
        Task<Result<Guid>> Add(Guid to) => shop.Do<EntryService, Result<Guid>>(entries => entries.AddAsync(to, Typed(EntryKind.Tool, "Spanner"), once, Ct));
        Done(await Add(page));
        Done(await Add(other));
        Assert.Single((await shop.Read(other)).Entries);
        Assert.True((await shop.Do<EntryService, Result>(entries => entries.RemoveAsync(page, once, Ct))).IsDone);
        Done(await Add(page));
        Assert.Single((await shop.Read(page)).Entries);
    }

    [Fact]
    public async Task Cautions_are_those_chosen_and_those_the_words_call_for()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark", notes: "Selenium meter in the top plate.");
        await shop.Entry(page, Typed(EntryKind.Caution, "") with { Caution = Caution.ThoriatedGlass });
        await shop.Guide(page, new GuideOrigin(""), Step("Mainspring barrel"));
        Assert.Equal([Caution.ThoriatedGlass, Caution.SeleniumCell, Caution.SpringUnderTension], (await shop.Read(page)).Cautions);
    }

    [Fact]
    public async Task Every_saving_of_a_guide_is_a_new_version_unless_nothing_differs_and_none_can_be_changed()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        Assert.Equal(1, (await shop.Guide(page, new GuideOrigin(""), Step("Front ring"))).Value);
        Assert.Equal(2, (await shop.Guide(page, new GuideOrigin("Name plate first", BasedOn: 1), Step("Name plate"), Step("Front ring"))).Value);
        Assert.Equal(2, (await shop.Guide(page, new GuideOrigin("Again"), Step("Name plate"), Step("Front ring"))).Value);
        Assert.Equal(new GuideSavedMeanwhile(2), (await shop.Guide(page, new GuideOrigin("", BasedOn: 1), Step("Front ring "))).Failure);
        var old = await shop.Do<GuideService, Result<GuideView>>(guides => guides.GetAsync(page, 1, Ct));
        Assert.Equal(["Front ring"], old.Value!.Steps.Select(step => step.What));
        var refused = await Assert.ThrowsAsync<PostgresException>(() => shop.Db(db => db.Database.ExecuteSqlAsync($"update guide_versions set note = 'other'", Ct)));
        Assert.Equal("append_only_guide_versions", refused.ConstraintName);
    }

    [Fact]
    public async Task A_finished_repairs_record_becomes_the_guide_of_a_model_that_had_no_page()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair("Example Works", "Lark");
        async Task<Guid> Write(StepFacts facts, Guid? after) =>
            Done(await shop.Do<StripStepService, Result<Guid>>(steps => steps.AddAsync(repair.Id, facts, new StepEntry(Guid.CreateVersion7(), after), Ct)));
        await Write(new("Front ring", 1, HeldBy.Ring, Remember.LeftHandThread, "", "", 0, null, null, ""), null);
        await Write(new("Name plate", 1, HeldBy.Screw, Remember.None, "", "below", 2, 0.15, null, ""), Guid.Empty);
        var slip = await Write(new("A slip", 1, HeldBy.Screw, Remember.None, "", "", 0, null, null, ""), Guid.Empty);
        Assert.True((await shop.Do<StripStepService, Result>(steps => steps.StrikeOutAsync(repair.Id, slip, "wrong camera", Ct))).IsDone);
        var saved = await shop.Do<GuideService, Result<(Guid PageId, int Number)>>(guides => guides.SaveFromRepairAsync(repair.Number, "First one", Ct));
        var guide = (await shop.Read(Done(saved).PageId)).Guide!;
        Assert.Equal(["Name plate", "Front ring"], guide.Steps.Select(step => step.What));
        Assert.Equal((2, 0.15, Remember.LeftHandThread), (guide.Steps[0].ShimCount, guide.Steps[0].ShimMillimetres, guide.Steps[1].Remember));
        Assert.Equal((repair.Number, "Mender"), (guide.FromRepair, guide.SavedBy));
        var link = await shop.Do<NotebookService, NotebookLink?>(pages => pages.OfRepairAsync(repair.Id, Ct));
        Assert.Equal(new NotebookLink(saved.Value.PageId, "Example Works", "Lark", 1, 0), link);
    }

    [Fact]
    public async Task Following_the_guide_writes_its_steps_into_the_record_once_each()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var page = await shop.Page("Example Works", "Lark");
        await shop.Guide(page, new GuideOrigin(""), Step("Front ring") with { Remember = Remember.EasilyLost }, Step("Name plate") with { Count = 3 });
        var repair = await shop.Repair("example works", "lark");
        Task<Result<Guid>> Off(int version, int place, Guid once) => shop.Do<GuideService, Result<Guid>>(guides => guides.TakeStepAsync(repair.Id, version, place, once, Ct));
        var once = Guid.CreateVersion7();
        Done(await Off(1, 1, once));
        Done(await Off(1, 1, once));
        Done(await Off(1, 0, Guid.CreateVersion7()));
        Assert.IsType<GuideNotFound>((await Off(1, 2, Guid.CreateVersion7())).Failure);
        Assert.IsType<GuideNotFound>((await Off(2, 0, Guid.CreateVersion7())).Failure);
        var now = await shop.Do<GuideService, IReadOnlyList<GuideStep>>(guides => guides.StepsOfRepairAsync(repair.Id, Ct));
        Assert.Equal([("Name plate", 3, Remember.None), ("Front ring", 1, Remember.EasilyLost)], now.Select(step => (step.What, step.Count, step.Remember)));
    }

    [Fact]
    public async Task A_list_longer_than_a_page_is_walked_to_its_end_without_losing_or_doubling_a_model()
    {
        await using var shop = await Workshop.OpenAsync(server);
        foreach (var number in Enumerable.Range(1, 34))
            await shop.Page(number % 2 == 0 ? "Example Works" : "", $"Model {number:00}");
        var first = await shop.Do<NotebookService, ListPage<ModelLine>>(pages => pages.ListAsync(null, Ct));
        var second = await shop.Do<NotebookService, ListPage<ModelLine>>(pages => pages.ListAsync(first.Next, Ct));
        Assert.Equal((30, 4, null), (first.Lines.Count, second.Lines.Count, second.Next));
        Assert.Equal(34, first.Lines.Concat(second.Lines).Select(line => line.Id).Distinct().Count());
    }
}
