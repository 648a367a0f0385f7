using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Tools;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Tools;

public sealed class ToolServiceTests(PostgresServer server)
{
    private static readonly SpannerMeasures Measures = new() { OuterDiameter = 31.75, InnerDiameter = 25.4, PinCircle = 28.5 };

    private static CancellationToken Ct => Workshop.Cancel;

    private static ToolTyped Some(string name) => new(name, ToolKind.RingSpanner, "Example Works, rear ring", "Drawer 3", "", LengthUnit.Inch, Measures, "", 0);

    private static MountTyped SomeMount(string camera) =>
        new(camera, "Rear ring", "", LengthUnit.Millimetre, new MountMeasures { RecessDiameter = 32, RearGroupHeight = -1.5 }, 0);

    private static Task<Result<Guid>> Add(Workshop shop, ToolTyped typed) => shop.Do<ToolService, Result<Guid>>(tools => tools.AddAsync(typed, Ct));

    private static async Task<IReadOnlyList<string>> Names(Workshop shop, string text = "", bool retired = false) =>
        [.. (await shop.Do<ToolService, Register<ToolLine>>(tools => tools.ListAsync(new RegisterQuestion(text, retired, 1), Ct))).Lines.Select(line => line.Name)];

    [Fact]
    public async Task A_tool_comes_back_with_its_measures_and_the_unit_they_were_typed_in()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = (await Add(shop, Some("Spanner"))).Value;
        var view = (await shop.Do<ToolService, Result<ToolView>>(tools => tools.GetAsync(id, Ct))).Value!;
        Assert.Equal(Some("Spanner"), view.Typed with { Version = 0 });
        Assert.Equal(Measures, Assert.Single(await shop.Do<ToolService, IReadOnlyList<ToolLine>>(tools => tools.RingSpannersAsync(Ct))).Spanner);
    }

    [Fact]
    public async Task The_tools_that_fit_a_model_are_told_by_what_is_written_of_them_and_not_by_their_names()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Add(shop, Some("Spanner") with { Fits = "example works LÁRK, rear ring" });
        await Add(shop, Some("Lark puller") with { Fits = "Anything" });
        var retired = await Add(shop, Some("Worn spanner") with { Fits = "Lark" });
        await shop.Do<ToolService, Result>(tools => tools.RetireAsync(retired.Value, Ct));
        Assert.Equal(["Spanner"], (await shop.Do<ToolService, IReadOnlyList<ToolLine>>(tools => tools.FittingAsync("Lark", Ct))).Select(tool => tool.Name));
    }

    [Fact]
    public async Task The_register_is_found_by_name_fit_and_place_whatever_the_case_or_accent()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Add(shop, Some("Schlüssel"));
        await Add(shop, Some("100 % jig_a") with { Kind = ToolKind.Jig, Spanner = new SpannerMeasures(), Fits = "Anything", Place = "Shelf" });
        Assert.Equal(["100 % jig_a", "Schlüssel"], await Names(shop));
        Assert.Equal(["Schlüssel"], await Names(shop, "SCHLUSSEL"));
        Assert.Equal(["Schlüssel"], await Names(shop, "rear ring"));
        Assert.Equal(["100 % jig_a"], await Names(shop, "shelf"));
        Assert.Equal(["100 % jig_a"], await Names(shop, "%"));
        Assert.Empty(await Names(shop, "jig%a"));
        Assert.Empty(await Names(shop, "'; drop table tools; --"));
    }

    [Fact]
    public async Task A_long_register_comes_in_pages_and_a_page_beyond_the_last_is_the_last()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await shop.Db(async db =>
        {
            db.Tools.AddRange(Enumerable.Range(1, 51).Select(number => new Tool { Name = $"Tool {number:00}", CreatedAt = shop.Clock.Now }));
            await db.SaveChangesAsync(Ct);
        });
        var last = await shop.Do<ToolService, Register<ToolLine>>(tools => tools.ListAsync(new RegisterQuestion("", false, 9), Ct));
        Assert.Equal((51, 2, 2, "Tool 51"), (last.Count, last.Page, last.Pages, Assert.Single(last.Lines).Name));
    }

    [Fact]
    public async Task A_retired_tool_is_out_of_the_way_and_comes_back()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = (await Add(shop, Some("Spanner"))).Value;
        Assert.True((await shop.Do<ToolService, Result>(tools => tools.RetireAsync(id, Ct))).IsDone);
        Assert.Empty(await Names(shop));
        Assert.Empty(await shop.Do<ToolService, IReadOnlyList<ToolLine>>(tools => tools.RingSpannersAsync(Ct)));
        Assert.Equal(["Spanner"], await Names(shop, retired: true));
        Assert.True((await shop.Do<ToolService, Result>(tools => tools.BringBackAsync(id, Ct))).IsDone);
        Assert.Equal(["Spanner"], await Names(shop));
    }

    [Fact]
    public async Task Two_tabs_on_one_tool_see_both_values()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = (await Add(shop, Some("Spanner"))).Value;
        var opened = (await shop.Do<ToolService, Result<ToolView>>(tools => tools.GetAsync(id, Ct))).Value!.Typed;
        Task<Result> Save(double outer) =>
            shop.Do<ToolService, Result>(tools => tools.ChangeAsync(id, opened with { Spanner = Measures with { OuterDiameter = outer } }, Ct));
        Assert.True((await Save(31)).IsDone);
        var changed = Assert.IsType<ChangedMeanwhile>((await Save(30.5)).Failure);
        Assert.Equal(new FieldDifference("OuterDiameter", "31", "30.5"), Assert.Single(changed.Differences));
    }

    [Fact]
    public async Task What_breaks_a_rule_is_not_kept()
    {
        await using var shop = await Workshop.OpenAsync(server);
        Assert.IsType<BoreWiderThanTube>((await Add(shop, Some("Spanner") with { Spanner = Measures with { InnerDiameter = 40 } })).Failure);
        Assert.IsType<ToolNotFound>((await shop.Do<ToolService, Result>(tools => tools.ChangeAsync(Guid.NewGuid(), Some("x"), Ct))).Failure);
        Assert.IsType<MountCameraMissing>((await shop.Do<MountService, Result<Guid>>(mounts => mounts.AddAsync(SomeMount(" "), Ct))).Failure);
        Assert.Empty(await Names(shop));
    }

    [Fact]
    public async Task Mounts_are_kept_found_changed_and_retired_alike()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = (await shop.Do<MountService, Result<Guid>>(mounts => mounts.AddAsync(SomeMount("Example Wörks 1"), Ct))).Value;
        var typed = (await shop.Do<MountService, Result<MountView>>(mounts => mounts.GetAsync(id, Ct))).Value!.Typed;
        Assert.Equal(SomeMount("Example Wörks 1"), typed with { Version = 0 });
        Assert.True((await shop.Do<MountService, Result>(mounts => mounts.ChangeAsync(id, typed with { Name = "Front ring" }, Ct))).IsDone);
        var found = await shop.Do<MountService, Register<MountLine>>(mounts => mounts.ListAsync(new RegisterQuestion("works", false, 1), Ct));
        Assert.Equal("Example Wörks 1, Front ring", Assert.Single(found.Lines).Words);
        Assert.True((await shop.Do<MountService, Result>(mounts => mounts.RetireAsync(id, Ct))).IsDone);
        Assert.Empty(await shop.Do<MountService, IReadOnlyList<MountLine>>(mounts => mounts.ChoicesAsync(Ct)));
        Assert.True((await shop.Do<MountService, Result>(mounts => mounts.BringBackAsync(id, Ct))).IsDone);
        Assert.Single(await shop.Do<MountService, IReadOnlyList<MountLine>>(mounts => mounts.ChoicesAsync(Ct)));
    }

    [Fact]
    public async Task Every_change_leaves_a_line_with_its_measures_in_the_audit_trail()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var id = (await Add(shop, Some("Spanner"))).Value;
        var opened = (await shop.Do<ToolService, Result<ToolView>>(tools => tools.GetAsync(id, Ct))).Value!.Typed;
        await shop.Do<ToolService, Result>(tools => tools.ChangeAsync(id, opened with { Spanner = Measures with { OuterDiameter = 31.5 } }, Ct));
        var lines = await shop.Db(db => db.Audit.Where(line => line.Entity == "Tool").OrderBy(line => line.Id).ToListAsync(Ct));
        Assert.Equal(["added", "changed"], lines.Select(line => line.Action));
        Assert.All(lines, line => Assert.Equal(shop.Mender, line.By));
        Assert.Contains("31.75", lines[1].Changes);
        Assert.Contains("31.5", lines[1].Changes);
    }
}
