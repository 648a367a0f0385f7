using RepairShop.Domain.Findings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;
using RepairShop.Services.Findings;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Findings;

public sealed class FindingServiceTests(PostgresServer server)
{
    private static CancellationToken Ct => Workshop.Cancel;

    private static FindingTyped Some(string component) =>
        new(component, Condition.Worn, "Pivots dry", "", "", null, "", null, null, "Cleaned", true, 0);

    private static Task<Result<Guid>> Add(Workshop shop, Guid repair, FindingTyped typed, Guid? once = null) =>
        shop.Do<FindingService, Result<Guid>>(findings => findings.AddAsync(repair, typed, once ?? Guid.CreateVersion7(), Ct));

    private static Task<IReadOnlyList<FindingLine>> List(Workshop shop, Guid repair) =>
        shop.Do<FindingService, IReadOnlyList<FindingLine>>(findings => findings.ForRepairAsync(repair, Ct));

    [Fact]
    public async Task Findings_keep_the_order_they_were_written_in_and_their_gauge_its_verdict()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        await Add(shop, repair, Some("Shutter blades"));
        await Add(shop, repair, Some("Self-timer") with { GaugeName = "Run", GaugeValue = 7.9, GaugeUnit = "s", GaugeLow = 8, GaugeHigh = 12 });
        var list = await List(shop, repair);
        Assert.Equal(["Shutter blades", "Self-timer"], list.Select(finding => finding.Component));
        Assert.Null(list[0].Gauge);
        Assert.Equal(Verdict.Outside, list[1].Gauge!.Verdict);
    }

    [Fact]
    public async Task A_finding_taken_off_can_be_brought_back_where_it_was()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var id = (await Add(shop, repair, Some("Mirror"))).Value;
        await Add(shop, repair, Some("Foam"));
        Assert.True((await shop.Do<FindingService, Result>(findings => findings.RemoveAsync(repair, id, Ct))).IsDone);
        Assert.Equal(["Foam"], (await List(shop, repair)).Select(finding => finding.Component));
        Assert.True((await shop.Do<FindingService, Result>(findings => findings.BringBackAsync(repair, id, Ct))).IsDone);
        Assert.Equal(["Mirror", "Foam"], (await List(shop, repair)).Select(finding => finding.Component));
    }

    [Fact]
    public async Task Suggestions_are_the_shops_own_words_most_used_first()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (one, other) = ((await shop.Repair()).Id, (await shop.Repair()).Id);
        await Add(shop, one, Some("Mirror"));
        await Add(shop, one, Some("Shutter blades"));
        await Add(shop, other, Some("Shutter blades"));
        var words = await shop.Do<FindingService, FindingWords>(findings => findings.WordsAsync(Ct));
        Assert.Equal(["Shutter blades", "Mirror"], words.Components);
        Assert.Equal(["Cleaned"], words.Actions);
    }

    [Fact]
    public async Task Two_tabs_on_one_finding_see_both_values()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var id = (await Add(shop, repair, Some("Mirror"))).Value;
        var opened = (await List(shop, repair))[0].AsTyped;
        Task<Result> Save(string text) =>
            shop.Do<FindingService, Result>(findings => findings.ChangeAsync(repair, id, opened with { Text = text }, Ct));
        Assert.True((await Save("Silver gone")).IsDone);
        var changed = Assert.IsType<ChangedMeanwhile>((await Save("Scratched")).Failure);
        Assert.Equal(new FieldDifference("Text", "Silver gone", "Scratched"), Assert.Single(changed.Differences));
    }

    [Fact]
    public async Task A_finding_belongs_to_its_own_repair()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (one, other) = ((await shop.Repair()).Id, (await shop.Repair()).Id);
        var id = (await Add(shop, one, Some("Mirror"))).Value;
        Assert.IsType<FindingNotFound>((await shop.Do<FindingService, Result>(findings => findings.RemoveAsync(other, id, Ct))).Failure);
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_one_finding_and_a_changed_one_is_another()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var once = Guid.CreateVersion7();
        await Add(shop, repair, Some("Mirror"), once);
        await Add(shop, repair, Some("Mirror"), once);
        await Add(shop, repair, Some("Foam"), once);
        Assert.Equal(["Mirror", "Foam"], (await List(shop, repair)).Select(finding => finding.Component));
    }

    [Fact]
    public async Task The_same_form_sent_again_after_its_finding_was_removed_or_for_another_repair_is_kept()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (one, other) = ((await shop.Repair()).Id, (await shop.Repair()).Id);
        var once = Guid.CreateVersion7();
        var id = (await Add(shop, one, Some("Mirror"), once)).Value;
        await Add(shop, other, Some("Mirror"), once);
        Assert.Single(await List(shop, other));
        Assert.True((await shop.Do<FindingService, Result>(findings => findings.RemoveAsync(one, id, Ct))).IsDone);
        await Add(shop, one, Some("Mirror"), once);
        Assert.Single(await List(shop, one));
    }

    [Fact]
    public async Task Words_from_anywhere_come_back_to_the_letter()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        const string text = "'; drop table findings; -- <script>alert(1)</script> 日本 יוסף 📷";
        await Add(shop, repair, Some("Lens") with { Text = text });
        Assert.Equal(text, (await List(shop, repair))[0].Text);
    }
}
