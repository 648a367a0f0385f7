using Microsoft.EntityFrameworkCore;
using RepairShop.Documents.Photos;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
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
    public async Task<Result<PhotosTaken>> AddAsync(
        string number, IReadOnlyList<PhotoFile> uploads, CancellationToken cancel, Guid? findingId = null)
    {
        if (await db.Repairs.Where(row => row.Number == number).Select(row => (Guid?)row.Id).SingleOrDefaultAsync(cancel) is not { } repairId)
            return new RepairNotFound(number);
        if (findingId is { } finding && !await db.Findings.AnyAsync(row => row.Id == finding && row.RepairId == repairId, cancel))
            return new FindingNotFound();
        var position = await db.Photos.Where(row => row.RepairId == repairId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        var refused = new List<Failure>();
        foreach (var upload in uploads)
        {
            var picture = PhotoIntake.Take(upload.Bytes.Span, upload.FileName);
            if (picture.IsDone && await KeepAsync(picture.Value, upload.Caption, repairId, findingId, position + 1, cancel))
                position++;
            else
                refused.Add(picture.Failure ?? new NoRoomForPhoto(upload.FileName));
        }

        await db.SaveChangesAsync(cancel);
        return new PhotosTaken(uploads.Count - refused.Count, refused);
    }

    public async Task<IReadOnlyList<PhotoView>> OfRepairAsync(Guid repairId, CancellationToken cancel) =>
        await db.Photos.Where(row => row.RepairId == repairId && row.RemovedAt == null).OrderBy(row => row.Position).ThenBy(row => row.AddedAt)
            .Select(row => new PhotoView(row.Id, row.Caption, row.Width, row.Height, row.FindingId)).ToListAsync(cancel);

    /// <summary>The picture's bytes, for whoever may see the sheet; a photo taken off can still be opened by its address.</summary>
    public async Task<Result<Stream>> OpenAsync(Guid id, bool thumbnail, CancellationToken cancel)
    {
        var row = await db.Photos.Where(photo => photo.Id == id).Select(photo => new { photo.FileHash, photo.ThumbnailHash }).SingleOrDefaultAsync(cancel);
        var hash = thumbnail ? row?.ThumbnailHash : row?.FileHash;
        return hash is not null && files.Has(hash) ? files.OpenRead(hash) : new PhotoNotFound();
    }

    public async Task<Result> CaptionAsync(Guid id, string caption, CancellationToken cancel)
    {
        if (await db.Photos.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } photo)
            return new PhotoNotFound();
        photo.Caption = TypedText.OneLine(caption);
        return await db.SaveAsync(cancel);
    }

    public Task<Result> TakeOffAsync(Guid id, CancellationToken cancel) => SetRemovedAsync(id, clock.GetUtcNow(), cancel);

    public Task<Result> PutBackAsync(Guid id, CancellationToken cancel) => SetRemovedAsync(id, null, cancel);

    /// <returns>False when the disk does not take it.</returns>
    private async Task<bool> KeepAsync(
        StoredPicture picture, string caption, Guid repairId, Guid? findingId, int position, CancellationToken cancel)
    {
        try
        {
            db.Photos.Add(new Photo
            {
                RepairId = repairId,
                FindingId = findingId,
                Caption = TypedText.OneLine(caption),
                FileHash = await files.PutAsync(picture.Jpeg, cancel),
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

    private async Task<Result> SetRemovedAsync(Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        if (await db.Photos.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } photo)
            return new PhotoNotFound();
        photo.RemovedAt = at;
        return await db.SaveAsync(cancel);
    }
}

/// <summary>An uploaded file; its name is for the sentence about it only.</summary>
public sealed record PhotoFile(string FileName, ReadOnlyMemory<byte> Bytes, string Caption = "");

public sealed record PhotosTaken(int Count, IReadOnlyList<Failure> Refused);
