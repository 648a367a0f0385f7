using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Checks;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Checks;

public sealed class CheckServiceTests(PostgresServer server)
{
    private static CancellationToken Ct => Workshop.Cancel;

    private static Task<IReadOnlyList<CheckLine>> Form(Workshop shop, Guid repair, Phase phase = Phase.AsReceived) =>
        shop.Do<CheckService, IReadOnlyList<CheckLine>>(checks => checks.FormAsync(repair, phase, Ct));

    private static Task<Result> Save(Workshop shop, Guid repair, IEnumerable<CheckTyped> rows, Phase phase = Phase.AsReceived) =>
        shop.Do<CheckService, Result>(checks => checks.SaveAsync(repair, phase, [.. rows], Ct));

    private static IEnumerable<CheckTyped> Typed(IEnumerable<CheckLine> form, string name, CheckOutcome outcome, string note = "", double? value = null) =>
        form.Select(line => line.Name == name
            ? new CheckTyped(line.Name, line.Unit, outcome, note, value, line.Was)
            : new CheckTyped(line.Name, line.Unit, line.Outcome, line.Note, line.Value, line.Was));

    [Fact]
    public async Task The_list_is_the_shops_own_and_only_what_was_done_is_stored()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var form = await Form(shop, repair);
        Assert.Equal(17, form.Count);
        Assert.Equal("s", form.Single(line => line.Name == "Self-timer run").Unit);
        Assert.True((await Save(shop, repair, Typed(form, "Self-timer run", CheckOutcome.Fine, "even", 9.2))).IsDone);
        Assert.Equal(1, await shop.Db(db => db.CheckResults.CountAsync(Ct)));
        var line = (await Form(shop, repair)).Single(line => line.Name == "Self-timer run");
        Assert.Equal((CheckOutcome.Fine, "even", 9.2), (line.Outcome, line.Note, line.Value!.Value));
    }

    [Fact]
    public async Task After_service_the_as_received_outcome_stands_beside()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Save(shop, repair, Typed(await Form(shop, repair), "Film transport", CheckOutcome.Faulty, "slips"));
        var after = await Form(shop, repair, Phase.AfterService);
        Assert.Equal(new CheckSaid(CheckOutcome.Faulty, "slips", null, ""), after.Single(line => line.Name == "Film transport").AsReceived);
        await Save(shop, repair, Typed(after, "Film transport", CheckOutcome.Fine), Phase.AfterService);
        var pair = Assert.Single(await shop.Do<CheckService, IReadOnlyList<CheckPair>>(checks => checks.BeforeAndAfterAsync(repair, Ct)));
        Assert.Equal((CheckOutcome.Faulty, CheckOutcome.Fine), (pair.AsReceived!.Outcome, pair.AfterService!.Outcome));
        Assert.Equal(Stage.Tested.ToString(), $"{await shop.Db(db => db.RepairStages.Select(row => row.Stage).SingleAsync(Ct))}");
    }

    [Fact]
    public async Task A_check_of_this_camera_alone_stays_on_its_list()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Save(shop, repair, [new CheckTyped("Bellows", "", CheckOutcome.Faulty, "pinholes", null, CheckService.Mark(null))]);
        Assert.Contains(await Form(shop, repair, Phase.AfterService), line => line.Name == "Bellows");
        Assert.DoesNotContain(await Form(shop, (await shop.Repair()).Id), line => line.Name == "Bellows");
    }

    [Fact]
    public async Task Two_tabs_may_tick_different_rows()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var form = await Form(shop, repair);
        Assert.True((await Save(shop, repair, Typed(form, "Film transport", CheckOutcome.Fine))).IsDone);
        Assert.True((await Save(shop, repair, Typed(form, "Viewfinder", CheckOutcome.Faulty))).IsDone);
        Assert.Equal(2, (await Form(shop, repair)).Count(line => line.Outcome != CheckOutcome.NotTested));
    }

    [Fact]
    public async Task Two_tabs_on_one_row_see_both_values_and_nothing_is_overwritten()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var form = await Form(shop, repair);
        await Save(shop, repair, Typed(form, "Film transport", CheckOutcome.Fine));
        var changed = Assert.IsType<ChangedMeanwhile>((await Save(shop, repair, Typed(form, "Film transport", CheckOutcome.Faulty, "slips"))).Failure);
        Assert.Equal(new FieldDifference("Film transport", "fine", "faulty, slips"), Assert.Single(changed.Differences));
        Assert.Equal(CheckOutcome.Fine, (await Form(shop, repair)).Single(line => line.Name == "Film transport").Outcome);
        // Saving again on top of what is stored now is a choice, and is taken.
        Assert.True((await Save(shop, repair, Typed(await Form(shop, repair), "Film transport", CheckOutcome.Faulty, "slips"))).IsDone);
    }

    [Fact]
    public async Task First_saves_of_one_row_at_once_lose_nothing_silently()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var form = await Form(shop, repair);
        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => Save(shop, repair, Typed(form, "Film transport", CheckOutcome.Fine, $"n{i}"))));
        Assert.Single(answers, answer => answer.IsDone);
        Assert.All(answers.Where(answer => !answer.IsDone), answer => Assert.IsType<ChangedMeanwhile>(answer.Failure));
    }

    [Fact]
    public async Task A_name_twice_a_note_too_long_and_no_number_are_refused()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        CheckTyped Row(string name, string note = "", double? value = null) => new(name, "", CheckOutcome.Fine, note, value, CheckService.Mark(null));
        Assert.IsType<CheckNamedTwice>((await Save(shop, repair, [Row("Bellows"), Row("bellows ")])).Failure);
        Assert.Equal(new CheckNoteTooLong("Rows[0].Note", "Bellows"), (await Save(shop, repair, [Row("Bellows", new string('x', 501))])).Failure);
        Assert.True((await Save(shop, repair, [Row("Bellows", new string('x', 500))])).IsDone);
        Assert.IsType<CheckValueNotFinite>((await Save(shop, repair, [Row("Foam", "", double.NaN)])).Failure);
    }
}
