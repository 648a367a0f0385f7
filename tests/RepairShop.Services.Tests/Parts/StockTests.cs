using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Parts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Parts;

public sealed class StockTests(PostgresServer server)
{
    private static CancellationToken Ct => Workshop.Cancel;

    private static PartTyped Some(string name = "Cell spring", string number = "") =>
        new(number, name, "Model 1 and 2", Provenance.New, 1.20m, 4.50m, "Drawer 3", 2m, 0);

    private static Task<Result<Guid>> Add(Workshop shop, PartTyped typed) => shop.Do<PartService, Result<Guid>>(parts => parts.AddAsync(typed, Ct));

    private static async Task<Guid> Stocked(Workshop shop, decimal quantity, string name = "Cell spring")
    {
        var id = (await Add(shop, Some(name))).Value;
        Assert.True((await BringIn(shop, id, quantity)).IsDone);
        return id;
    }

    private static Task<Result> BringIn(Workshop shop, Guid id, decimal quantity) =>
        shop.Do<PartService, Result>(parts => parts.BringInAsync(id, MovementKind.Received, quantity, 1.10m, "from a dealer", Ct));

    private static Task<PartView> Get(Workshop shop, Guid id) =>
        shop.Do<PartService, PartView>(async parts => (await parts.GetAsync(id, Ct)).Value!);

    private static Task<Result<Guid>> Use(Workshop shop, Repair repair, string part, decimal quantity, Guid? once = null) =>
        shop.Do<PartUseService, Result<Guid>>(uses => uses.UseAsync(
            repair.Id, new PartUseTyped(part, "", quantity, "", Provenance.New, null, null, null), once ?? Guid.CreateVersion7(), Ct));

    private static Task<PartsView> Fitted(Workshop shop, Repair repair) =>
        shop.Do<PartUseService, PartsView>(uses => uses.ForRepairAsync(repair.Id, Ct));

    [Fact]
    public async Task Numbers_are_given_in_turn_and_skip_what_was_typed_by_hand()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Add(shop, Some(number: "P0001"));
        var id = (await Add(shop, Some())).Value;
        Assert.Equal("P0002", (await Get(shop, id)).Typed.Number);
        Assert.Equal(new PartNumberTaken("P0001"), (await Add(shop, Some(number: "P0001"))).Failure);
    }

    [Fact]
    public async Task What_is_on_hand_is_the_sum_of_the_ledger()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 5);
        var repair = await shop.Repair();
        await Use(shop, repair, "P0001", 2);
        await shop.Do<PartService, Result<decimal>>(parts => parts.CorrectCountAsync(id, 2, "one was bent", Ct));
        var part = await Get(shop, id);
        Assert.Equal(2, part.OnHand);
        Assert.Equal([-1m, -2m, 5m], part.Ledger.Select(line => line.Quantity));
        Assert.Equal([2m, 3m, 5m], part.Ledger.Select(line => line.After));
        Assert.Equal(repair.Number, part.Ledger[1].RepairNumber);
    }

    [Fact]
    public async Task Stock_does_not_go_below_zero_and_the_sentence_says_what_is_there()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Stocked(shop, 1);
        var repair = await shop.Repair();
        Assert.Equal(new NotEnoughOnHand("P0001 Cell spring", 1, 1.5m), (await Use(shop, repair, "P0001", 1.5m)).Failure);
        Assert.Empty((await Fitted(shop, repair)).Lines);
        Assert.True((await Use(shop, repair, "P0001", 1)).IsDone);
        Assert.Equal(new NotEnoughOnHand("P0001 Cell spring", 0, 1), (await Use(shop, repair, "P0001", 1)).Failure);
    }

    [Fact]
    public async Task Of_sixteen_who_take_the_last_one_at_once_one_gets_it()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 1);
        var repair = await shop.Repair();
        var answers = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Use(shop, repair, "P0001", 1)));
        Assert.Single(answers, answer => answer.IsDone);
        Assert.All(answers.Where(answer => !answer.IsDone), answer =>
            Assert.Equal(new NotEnoughOnHand("P0001 Cell spring", 0, 1), answer.Failure));
        Assert.Equal(0, (await Get(shop, id)).OnHand);
    }

    [Fact]
    public async Task The_same_form_sent_twice_takes_one_part()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 5);
        var repair = await shop.Repair();
        var once = Guid.CreateVersion7();
        await Task.WhenAll(Use(shop, repair, "P0001", 1, once), Use(shop, repair, "P0001", 1, once));
        await Use(shop, repair, "P0001", 1, once);
        Assert.Equal(4, (await Get(shop, id)).OnHand);
        Assert.Single((await Fitted(shop, repair)).Lines);
    }

    [Fact]
    public async Task Taking_a_line_off_puts_the_part_back_once()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 3);
        var repair = await shop.Repair();
        var use = (await Use(shop, repair, "P0001", 2)).Value;
        Task<Result> Off() => shop.Do<PartUseService, Result>(uses => uses.TakeOffAsync(repair.Id, use, Ct));
        var answers = await Task.WhenAll(Off(), Off(), Off());
        Assert.Single(answers, answer => answer.IsDone);
        Assert.All(answers.Where(answer => !answer.IsDone), answer => Assert.IsType<PartUseNotFound>(answer.Failure));
        Assert.Equal(3, (await Get(shop, id)).OnHand);
        Assert.Equal(MovementKind.PutBack, (await Get(shop, id)).Ledger[0].Kind);
        Assert.Empty((await Fitted(shop, repair)).Lines);
    }

    [Fact]
    public async Task A_one_off_line_touches_no_stock_and_a_donor_part_says_so()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        var typed = new PartUseTyped("", "Front ring from a donor", 1, "pc", Provenance.Donor, null, 25m, null);
        Assert.True((await shop.Do<PartUseService, Result<Guid>>(uses => uses.UseAsync(repair.Id, typed, Guid.CreateVersion7(), Ct))).IsDone);
        var line = Assert.Single((await Fitted(shop, repair)).Lines);
        Assert.Equal((Provenance.Donor, 25m, ""), (line.Provenance, line.Price, line.PartNumber));
        Assert.False(await shop.Db(db => db.StockMovements.AnyAsync(Ct)));
    }

    [Theory]
    [InlineData("Cell spring", null)]
    [InlineData("p0001", null)]
    [InlineData("P0001 · Cell spring", null)]
    [InlineData("cell sprng", null)]
    [InlineData("spring", typeof(PartNotClear))]
    [InlineData("bellows", typeof(PartNotInStock))]
    [InlineData("%", typeof(PartNotInStock))]
    public async Task A_part_is_meant_by_its_number_or_by_words_that_fit_one_only(string typed, Type? refusal)
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Stocked(shop, 5, "Cell spring");
        await Stocked(shop, 5, "Mirror spring");
        var used = await Use(shop, await shop.Repair(), typed, 1);
        if (refusal is null)
            Assert.True(used.IsDone, used.Failure?.Message);
        else
            Assert.IsType(refusal, used.Failure);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(100001)]
    public async Task An_impossible_count_is_refused(int counted)
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 1);
        Assert.IsType<CountOutOfRange>((await Count(shop, id, counted, "because")).Failure);
    }

    [Fact]
    public async Task A_count_needs_a_reason_and_a_difference()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 4);
        Assert.IsType<CountReasonMissing>((await Count(shop, id, 3, " ")).Failure);
        Assert.Equal(new CountAgrees(4), (await Count(shop, id, 4, "counted")).Failure);
        Assert.Equal(-4m, (await Count(shop, id, 0, "lost")).Value);
    }

    [Fact]
    public async Task Counts_at_once_end_at_one_of_the_counts()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 50);
        await Task.WhenAll(Enumerable.Range(1, 8).Select(counted => Count(shop, id, counted, "counted")));
        var part = await Get(shop, id);
        Assert.InRange(part.OnHand, 1, 8);
        Assert.Equal(part.OnHand, part.Ledger.Sum(line => line.Quantity));
    }

    [Fact]
    public async Task A_part_on_hand_is_not_retired_and_a_retired_one_is_not_used()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = await Stocked(shop, 1);
        Task<Result> Retire() => shop.Do<PartService, Result>(parts => parts.RetireAsync(id, Ct));
        Assert.IsType<PartStillOnHand>((await Retire()).Failure);
        await Count(shop, id, 0, "gone");
        Assert.True((await Retire()).IsDone);
        Assert.Equal(new PartIsRetired("P0001 Cell spring"), (await Use(shop, await shop.Repair(), "P0001", 1)).Failure);
        Assert.IsType<PartIsRetired>((await BringIn(shop, id, 1)).Failure);
    }

    [Fact]
    public async Task Two_who_edit_one_part_see_both_values()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = (await Add(shop, Some())).Value;
        var opened = (await Get(shop, id)).Typed;
        Task<Result> Save(string place) => shop.Do<PartService, Result>(parts => parts.ChangeAsync(id, opened with { Place = place }, Ct));
        Assert.True((await Save("Shelf")).IsDone);
        var changed = Assert.IsType<ChangedMeanwhile>((await Save("Box")).Failure);
        Assert.Equal(new FieldDifference("Place", "Shelf", "Box"), Assert.Single(changed.Differences));
    }

    [Fact]
    public async Task The_list_finds_with_a_slip_of_the_finger_pages_and_shows_what_to_reorder()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Stocked(shop, 5, "Cell spring");
        await Stocked(shop, 2, "Mirror foam");
        for (var i = 0; i < PartService.PageSize; i++)
            await Add(shop, Some($"Screw {i:00}") with { ReorderLevel = 0 });
        Task<StockList> List(StockQuestion question) => shop.Do<PartService, StockList>(parts => parts.ListAsync(question, Ct));
        Assert.Equal("Mirror foam", Assert.Single((await List(new("miror foam", false, false, 1))).Lines).Name);
        Assert.Equal("Mirror foam", Assert.Single((await List(new("", true, false, 1))).Lines).Name);
        var all = await List(new("", false, false, 2));
        Assert.Equal((52, 2, 2, 2), (all.Count, all.Page, all.Pages, all.Lines.Count));
        Assert.Equal(2, (await List(new("", false, false, 99))).Page);
    }

    [Fact]
    public async Task The_ledger_can_not_be_rewritten()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Stocked(shop, 5);
        await Assert.ThrowsAsync<Npgsql.PostgresException>(() => shop.Db(db => db.StockMovements.ExecuteDeleteAsync(Ct)));
    }

    private static Task<Result<decimal>> Count(Workshop shop, Guid id, decimal counted, string reason) =>
        shop.Do<PartService, Result<decimal>>(parts => parts.CorrectCountAsync(id, counted, reason, Ct));
}
