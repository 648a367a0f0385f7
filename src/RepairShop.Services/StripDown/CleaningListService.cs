using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;

namespace RepairShop.Services.StripDown;

/// <summary>The shop's own ways of cleaning, each with what it can do to people and parts.</summary>
public sealed class CleaningListService(ShopDb db, TimeProvider clock)
{
    /// <summary>What a new book starts with. Common practice.</summary>
    internal static readonly (string Name, SolventCaution Cautions)[] Defaults =
    [
        ("Brush and blower, dry", SolventCaution.None),
        ("Pegwood and pith, dry", SolventCaution.None),
        ("Soapy water, rinsed and dried warm", SolventCaution.None),
        ("Ultrasonic bath, water-based cleaner", SolventCaution.None),
        ("Naphtha", SolventCaution.Flammable | SolventCaution.HarmfulVapour),
        ("Isopropyl alcohol", SolventCaution.Flammable | SolventCaution.AttacksFinish),
        ("Acetone", SolventCaution.Flammable | SolventCaution.HarmfulVapour | SolventCaution.AttacksFinish),
        ("Lens cleaner and tissue", SolventCaution.None),
    ];

    /// <summary>In use first, in the shop's order.</summary>
    public async Task<IReadOnlyList<CleaningLine>> ListAsync(CancellationToken cancel) =>
        await db.CleaningWays.OrderBy(way => way.RetiredAt != null).ThenBy(way => way.Position).ThenBy(way => way.Name)
            .Select(way => new CleaningLine(way.Id, way.Name, way.Cautions, way.RetiredAt != null)).ToListAsync(cancel);

    public async Task<Result> AddAsync(string name, SolventCaution cautions, CancellationToken cancel)
    {
        var clean = TypedText.OneLine(name);
        if (clean.Length == 0)
            return new CleaningWayNameMissing();
        var names = await db.CleaningWays.Select(way => way.Name).ToListAsync(cancel);
        if (names.Contains(clean, StringComparer.OrdinalIgnoreCase))
            return new CleaningWayTaken(clean);
        var last = await db.CleaningWays.MaxAsync(way => (int?)way.Position, cancel) ?? 0;
        db.CleaningWays.Add(new CleaningWay { Name = clean, Cautions = cautions, Position = last + 1 });
        return await db.SaveAsync(cancel, (CleaningWayConfiguration.OneName, new CleaningWayTaken(clean)));
    }

    public Task<Result> ChangeCautionsAsync(Guid id, SolventCaution cautions, CancellationToken cancel) =>
        ChangeAsync(id, way => way.Cautions = cautions, cancel);

    /// <summary>Off the list for new work; what was cleaned so stays cleaned so.</summary>
    public Task<Result> RetireAsync(Guid id, CancellationToken cancel) => ChangeAsync(id, way => way.RetiredAt ??= clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid id, CancellationToken cancel) => ChangeAsync(id, way => way.RetiredAt = null, cancel);

    private async Task<Result> ChangeAsync(Guid id, Action<CleaningWay> change, CancellationToken cancel)
    {
        if (await db.CleaningWays.FindAsync([id], cancel) is not { } way)
            return new CleaningWayNotFound();
        change(way);
        return await db.SaveAsync(cancel);
    }
}
