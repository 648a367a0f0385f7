using RepairShop.Domain.Findings;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Notebook;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Notebook;

/// <summary>Short ways to what notebook tests need.</summary>
internal static class Pages
{
    public static CancellationToken Ct => Workshop.Cancel;

    public static async Task<Guid> Page(this Workshop shop, string maker, string model, string notes = "", string speeds = "") =>
        Done(await shop.Do<NotebookService, Result<Guid>>(pages => pages.StartAsync(new ModelTyped(maker, model, speeds, notes, 0), Guid.CreateVersion7(), Ct)));

    public static Task<ModelPageView> Read(this Workshop shop, Guid id) =>
        shop.Do<NotebookService, ModelPageView>(async pages => Done(await pages.GetAsync(id, Ct)));

    public static async Task<Guid> Entry(this Workshop shop, Guid page, EntryTyped typed) =>
        Done(await shop.Do<EntryService, Result<Guid>>(entries => entries.AddAsync(page, typed, Guid.CreateVersion7(), Ct)));

    public static EntryTyped Typed(EntryKind kind, string title, string text = "") => new(kind, title, text, "", null, "", null, null, 0);

    public static async Task<Guid> Variant(this Workshop shop, Guid page, string name, string traits, string note = "") =>
        Done(await shop.Do<VariantService, Result<Guid>>(variants => variants.AddAsync(page, new VariantTyped(name, traits, note, 0), Guid.CreateVersion7(), Ct)));

    public static Task<Result<int>> Guide(this Workshop shop, Guid page, GuideOrigin origin, params GuideStep[] steps) =>
        shop.Do<GuideService, Result<int>>(guides => guides.SaveGuideAsync(page, steps, origin, Ct));

    public static GuideStep Step(string what) => new() { What = what, HeldBy = HeldBy.Screw };

    public static Task<Repair> Repair(this Workshop shop, string maker, string model) =>
        shop.Repair((_, camera) => (camera.Maker, camera.Model) = (maker, model));

    public static Task Found(this Workshop shop, Repair repair, string component, Condition condition, Action<Finding>? change = null) => shop.Db(async db =>
    {
        var finding = new Finding { RepairId = repair.Id, Component = component, Condition = condition, FoundAt = shop.Clock.Now, FoundBy = shop.Mender };
        change?.Invoke(finding);
        db.Findings.Add(finding);
        await db.SaveChangesAsync(Ct);
    });

    public static T Done<T>(Result<T> result)
    {
        Assert.True(result.IsDone, result.Failure?.Message);
        return result.Value;
    }
}
