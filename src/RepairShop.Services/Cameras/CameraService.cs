using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Cameras;

/// <summary>Cameras and their history.</summary>
public sealed class CameraService(ShopDb db, ShopFace face, TimeProvider clock)
{
    /// <param name="ownerId">A customer in the book.</param>
    /// <param name="input">As typed.</param>
    /// <param name="isAnotherOne">The person has seen the camera with the same serial and says that this is not it.</param>
    /// <param name="cancel"></param>
    public async Task<Result<Guid>> AddAsync(Guid ownerId, CameraInput input, bool isAnotherOne, CancellationToken cancel)
    {
        if (!await db.Customers.AnyAsync(row => row.Id == ownerId, cancel))
            return new CustomerNotFound();
        var camera = new Camera { OwnerId = ownerId, CreatedAt = clock.GetUtcNow() };
        if (await CheckNewAsync(camera, input, isAnotherOne, cancel) is { IsDone: false } refused)
            return refused.Failure;
        db.Cameras.Add(camera);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? camera.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid id, uint version, CameraInput input, CancellationToken cancel)
    {
        if (await db.Cameras.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } camera)
            return new CameraNotFound();
        if (input.WriteTo(camera) is { IsDone: false } refused)
            return refused;
        db.Entry(camera).Property(row => row.Version).OriginalValue = version;
        return await db.SaveAsync(cancel);
    }

    /// <summary>Sold, inherited, given away: earlier repairs keep the customer they were done for.</summary>
    public async Task<Result> ChangeOwnerAsync(Guid id, Guid ownerId, CancellationToken cancel)
    {
        if (await db.Cameras.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } camera)
            return new CameraNotFound();
        if (!await db.Customers.AnyAsync(row => row.Id == ownerId, cancel))
            return new CustomerNotFound();
        camera.OwnerId = ownerId;
        return await db.SaveAsync(cancel);
    }

    public async Task<Result<CameraView>> GetAsync(Guid id, CancellationToken cancel)
    {
        if (await db.Cameras.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } camera)
            return new CameraNotFound();
        var owner = await db.Customers.Where(row => row.Id == camera.OwnerId)
            .Select(row => new { row.Name, row.Company }).SingleAsync(cancel);
        return new CameraView(id, CameraRules.NameOf(camera.Maker, camera.Model, camera.Variant), CameraInput.Of(camera),
            camera.OwnerId, CustomerService.NameOf(owner.Name, owner.Company), camera.Version, await HistoryAsync(id, cancel));
    }

    /// <summary>All visits of a camera, the latest first.</summary>
    public async Task<IReadOnlyList<CameraVisit>> HistoryAsync(Guid id, CancellationToken cancel) => await (
        from repair in db.Repairs
        join customer in db.Customers on repair.CustomerId equals customer.Id
        join stage in db.RepairStages on repair.Id equals stage.RepairId
        where repair.CameraId == id
        orderby repair.BookedAt descending
        select new CameraVisit(repair.Number, repair.BookedAt, repair.Complaint, stage.Stage, repair.ReturnedAt,
            customer.Name == "" ? customer.Company : customer.Name)).Take(100).ToListAsync(cancel);

    /// <summary>The earlier repair that stands behind this camera today; null when none does.</summary>
    public async Task<WarrantyOffer?> WarrantyAsync(Guid cameraId, CancellationToken cancel)
    {
        var last = await db.Repairs.Where(row => row.CameraId == cameraId && row.ReturnedAt != null)
            .OrderByDescending(row => row.ReturnedAt).Select(row => new { row.Id, row.Number, row.ReturnedAt }).FirstOrDefaultAsync(cancel);
        if (last is null)
            return null;
        var months = await db.Shop.Select(shop => shop.WarrantyMonths).SingleAsync(cancel);
        var returned = DateOnly.FromDateTime(face.Local(last.ReturnedAt!.Value).DateTime);
        return Warranty.Covers(returned, months, face.Today)
            ? new WarrantyOffer(last.Id, last.Number, returned, Warranty.Until(returned, months))
            : null;
    }

    public async Task<IReadOnlyList<CameraLine>> OfOwnerAsync(Guid ownerId, CancellationToken cancel) =>
        await Lines(db.Cameras.Where(row => row.OwnerId == ownerId).OrderBy(row => row.Maker).ThenBy(row => row.Model)).Take(50).ToListAsync(cancel);

    /// <summary>Up to twelve cameras for what was typed in a find box.</summary>
    public async Task<IReadOnlyList<CameraLine>> FindAsync(string? typed, CancellationToken cancel)
    {
        var page = await ListAsync(typed, null, cancel);
        return string.IsNullOrWhiteSpace(typed) ? [] : [.. page.Lines.Take(12)];
    }

    /// <summary>A page of all cameras by maker and model, or of those that match.</summary>
    public Task<ListPage<CameraLine>> ListAsync(string? typed, string? after, CancellationToken cancel) =>
        SearchWords.PageAsync(db, typed, after, (words, from) => PageAsync(words, from, cancel), cancel);

    internal async Task<Result> CheckNewAsync(Camera camera, CameraInput input, bool isAnotherOne, CancellationToken cancel)
    {
        if (input.WriteTo(camera) is { IsDone: false } refused)
            return refused;
        if (isAnotherOne || camera.BodySerial.Length == 0)
            return Result.Done;
        var same = await db.Database.SqlQuery<Guid>(
            $"""
            select id as "Value" from cameras
            where body_serial <> '' and lower(body_serial) = lower({camera.BodySerial}) and lower(maker) = lower({camera.Maker})
            """).ToListAsync(cancel);
        var known = await Lines(db.Cameras.Where(row => same.Contains(row.Id))).FirstOrDefaultAsync(cancel);
        return known is null ? Result.Done : new CameraMayBeKnown(
            new KnownCamera(known.Id, CameraRules.NameOf(known.Maker, known.Model, known.Variant), known.BodySerial, known.OwnerId, known.Owner));
    }

    private async Task<ListPage<CameraLine>> PageAsync(SearchWords words, string? after, CancellationToken cancel)
    {
        var rows = words.In(db.Cameras);
        if (ListKey.Read(after) is var (name, id) && name.Split('\t') is [var maker, var model])
            rows = rows.Where(row => EF.Functions.GreaterThan(ValueTuple.Create(row.Maker, row.Model, row.Id), ValueTuple.Create(maker, model, id)));
        var lines = await Lines(rows.OrderBy(row => row.Maker).ThenBy(row => row.Model).ThenBy(row => row.Id))
            .Take(ListPages.Size + 1).ToListAsync(cancel);
        return ListPages.Of(lines, line => ListKey.Write($"{line.Maker}\t{line.Model}", line.Id), words.Instead);
    }

    // Looked up line by line: a join would let the planner read all customers to show thirty.
    private IQueryable<CameraLine> Lines(IQueryable<Camera> rows) => rows.Select(row => new CameraLine(
        row.Id, row.Maker, row.Model, row.Variant, row.BodySerial, row.Lens, row.OwnerId,
        db.Customers.Where(owner => owner.Id == row.OwnerId).Select(owner => owner.Name == "" ? owner.Company : owner.Name).First()));
}
