using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Tools;
using RepairShop.Services.Database;

namespace RepairShop.Services.Tools;

/// <summary>Measured mounts that ring spanners are held against.</summary>
public sealed class MountService(ShopDb db, TimeProvider clock)
{
    public async Task<Register<MountLine>> ListAsync(RegisterQuestion question, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(question);
        var inside = RegisterPages.Inside(question.Text);
        var found = db.Database.SqlQuery<Guid>(
            $"""select id as "Value" from mounts where shop_fold(concat_ws(' ', camera, name)) like shop_fold({inside})""");
        return await db.Mounts.AsNoTracking().Where(row => found.Contains(row.Id) && (row.RetiredAt != null) == question.Retired)
            .OrderBy(row => row.Camera).ThenBy(row => row.Name).ThenBy(row => row.Id)
            .PageAsync(question.Page, row => new MountLine(row.Id, row.Camera, row.Name, row.Unit, row.Measures), cancel);
    }

    /// <summary>All mounts in use, to choose one from.</summary>
    public async Task<IReadOnlyList<MountLine>> ChoicesAsync(CancellationToken cancel) =>
        await db.Mounts.AsNoTracking().Where(row => row.RetiredAt == null).OrderBy(row => row.Camera).ThenBy(row => row.Name).ThenBy(row => row.Id)
            .Select(row => new MountLine(row.Id, row.Camera, row.Name, row.Unit, row.Measures)).ToListAsync(cancel);

    /// <summary>Makers and models of the cameras that have been here, to write as the mount's camera.</summary>
    public async Task<IReadOnlyList<string>> CamerasAsync(CancellationToken cancel) =>
        await db.Cameras.Select(camera => (camera.Maker + " " + camera.Model).Trim()).Distinct().OrderBy(name => name).Take(200).ToListAsync(cancel);

    public async Task<Result<MountView>> GetAsync(Guid id, CancellationToken cancel)
    {
        var mount = await db.Mounts.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel);
        return mount is null
            ? new MountNotFound()
            : new MountView(
                mount.Id, new MountTyped(mount.Camera, mount.Name, mount.Notes, mount.Unit, mount.Measures, mount.Version), mount.RetiredAt is not null);
    }

    public async Task<Result<Guid>> AddAsync(MountTyped typed, CancellationToken cancel)
    {
        var mount = new Mount { CreatedAt = clock.GetUtcNow() };
        if (Fill(mount, typed) is { } refused)
            return refused;
        db.Mounts.Add(mount);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? mount.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid id, MountTyped typed, CancellationToken cancel)
    {
        var mount = await db.Mounts.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (mount is null)
            return new MountNotFound();
        db.Entry(mount).Property(row => row.Version).OriginalValue = typed.Version;
        return Fill(mount, typed) is { } refused ? refused : await db.SaveAsync(cancel);
    }

    public Task<Result> RetireAsync(Guid id, CancellationToken cancel) => SetRetiredAsync(id, clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid id, CancellationToken cancel) => SetRetiredAsync(id, null, cancel);

    private async Task<Result> SetRetiredAsync(Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        var mount = await db.Mounts.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (mount is null)
            return new MountNotFound();
        mount.RetiredAt = at is null ? null : mount.RetiredAt ?? at;
        return await db.SaveAsync(cancel);
    }

    private static Failure? Fill(Mount mount, MountTyped typed)
    {
        mount.Camera = typed.Camera.Trim();
        mount.Name = typed.Name.Trim();
        mount.Notes = typed.Notes.Trim();
        mount.Unit = typed.Unit;
        mount.Measures = typed.Measures;
        return ToolRules.WhyNot(mount);
    }
}
