using Microsoft.EntityFrameworkCore;
using RepairShop.Documents.Photos;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;

namespace RepairShop.Services.Repairs;

/// <summary>Photos of a repair: shown, captioned, taken off and put back.</summary>
public sealed class PhotoService(ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock)
{
    /// <summary>Takes in what can be taken in; each file that can't is named with the reason, and stops no other.</summary>
    /// <param name="number">Of the repair.</param>
    /// <param name="uploads">As they came from the camera.</param>
    /// <param name="cancel"></param>
    /// <param name="findingId">The finding they show; null for the repair as a whole.</param>
    /// <param name="stepId">The step of the strip-down they were taken at. The same picture of the same step is kept once.</param>
    public async Task<Result<PhotosTaken>> AddAsync(
        string number, IReadOnlyList<PhotoFile> uploads, CancellationToken cancel, Guid? findingId = null, Guid? stepId = null)
    {
        if (await db.Repairs.Where(row => row.Number == number).Select(row => (Guid?)row.Id).SingleOrDefaultAsync(cancel) is not { } repairId)
            return new RepairNotFound(number);
        if (findingId is { } finding && !await db.Findings.AnyAsync(row => row.Id == finding && row.RepairId == repairId, cancel))
            return new FindingNotFound();
        if (stepId is { } step && !await db.StripSteps.AnyAsync(row => row.Id == step && row.RepairId == repairId, cancel))
            return new StripStepNotFound();
        var position = await db.Photos.Where(row => row.RepairId == repairId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        var refused = new List<Failure>();
        foreach (var upload in uploads)
        {
            var picture = PhotoIntake.Take(upload.Bytes.Span, upload.FileName);
            if (picture.IsDone && await KeepAsync(picture.Value, upload.Caption, new PhotoOf(repairId, findingId, stepId), position + 1, cancel))
                position++;
            else
                refused.Add(picture.Failure ?? new NoRoomForPhoto(upload.FileName));
        }

        var twice = new StripStepNotFound();
        var saved = await db.SaveAsync(cancel, ("ix_photos_strip_step_id_file_hash", twice));
        if (!saved.IsDone && saved.Failure != twice)
            return saved.Failure;
        return new PhotosTaken(uploads.Count - refused.Count, refused);
    }

    public async Task<IReadOnlyList<PhotoView>> OfRepairAsync(Guid repairId, CancellationToken cancel) =>
        await db.Photos.Where(row => row.RepairId == repairId && row.StripStepId == null && row.RemovedAt == null).OrderBy(row => row.Position).ThenBy(row => row.AddedAt)
            .Select(row => new PhotoView(row.Id, row.Caption, row.Width, row.Height, row.FindingId)).ToListAsync(cancel);

    /// <summary>The picture's bytes, for whoever may see the sheet; a photo taken off can still be opened by its address.</summary>
    public async Task<Result<Stream>> OpenAsync(Guid id, bool thumbnail, CancellationToken cancel)
    {
        var row = await db.Photos.Where(photo => photo.Id == id).Select(photo => new { photo.FileHash, photo.ThumbnailHash }).SingleOrDefaultAsync(cancel);
        var hash = thumbnail ? row?.ThumbnailHash : row?.FileHash;
        return hash is not null && files.Has(hash) ? files.OpenRead(hash) : new PhotoNotFound();
    }

    public async Task<Result> CaptionAsync(string number, Guid id, string caption, CancellationToken cancel)
    {
        if (await FindAsync(number, id, cancel) is not { } photo)
            return new PhotoNotFound();
        photo.Caption = TypedText.OneLine(caption);
        return await db.SaveAsync(cancel);
    }

    public Task<Result> TakeOffAsync(string number, Guid id, CancellationToken cancel) => SetRemovedAsync(number, id, clock.GetUtcNow(), cancel);

    public Task<Result> PutBackAsync(string number, Guid id, CancellationToken cancel) => SetRemovedAsync(number, id, null, cancel);

    private Task<Photo?> FindAsync(string number, Guid id, CancellationToken cancel) =>
        db.Photos.SingleOrDefaultAsync(row => row.Id == id && db.Repairs.Any(repair => repair.Id == row.RepairId && repair.Number == number), cancel);

    /// <returns>False when the disk does not take it.</returns>
    private async Task<bool> KeepAsync(
        StoredPicture picture, string caption, PhotoOf of, int position, CancellationToken cancel)
    {
        try
        {
            var hash = await files.PutAsync(picture.Jpeg, cancel);
            if (of.StepId is not null && await AgainAsync(of, hash, cancel))
                return true;
            db.Photos.Add(new Photo
            {
                RepairId = of.RepairId,
                FindingId = of.FindingId,
                StripStepId = of.StepId,
                Caption = TypedText.OneLine(caption),
                FileHash = hash,
                ThumbnailHash = await files.PutAsync(picture.Thumbnail, cancel),
                Width = picture.Width,
                Height = picture.Height,
                Position = position,
                AddedAt = clock.GetUtcNow(),
                AddedBy = person.RequiredId,
            });
            return true;
        }
        catch (IOException)
        {
            return false;
        }
    }

    /// <summary>A step's photo sent again, by a device that did not hear that it had arrived, or after it was taken off.</summary>
    private async Task<bool> AgainAsync(PhotoOf of, string hash, CancellationToken cancel)
    {
        var here = db.Photos.Local.FirstOrDefault(row => row.StripStepId == of.StepId && row.FileHash == hash)
            ?? await db.Photos.SingleOrDefaultAsync(row => row.StripStepId == of.StepId && row.FileHash == hash, cancel);
        if (here is not null)
            here.RemovedAt = null;
        return here is not null;
    }

    private async Task<Result> SetRemovedAsync(string number, Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        if (await FindAsync(number, id, cancel) is not { } photo)
            return new PhotoNotFound();
        photo.RemovedAt = at;
        return await db.SaveAsync(cancel);
    }
}

/// <summary>An uploaded file; its name is for the sentence about it only.</summary>
public sealed record PhotoFile(string FileName, ReadOnlyMemory<byte> Bytes, string Caption = "");

/// <summary>What a photo belongs to.</summary>
internal sealed record PhotoOf(Guid RepairId, Guid? FindingId, Guid? StepId);

public sealed record PhotosTaken(int Count, IReadOnlyList<Failure> Refused);
