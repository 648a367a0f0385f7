using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using RepairShop.Documents.Photos;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Notebook;

/// <summary>Own drawings and photos of a model: shown, captioned, taken off and put back.</summary>
public sealed class ModelPhotoService(ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock)
{
    /// <summary>Takes in what can be taken in; each file that can't is named with the reason, and stops no other.</summary>
    public async Task<Result<ModelPhotosTaken>> AddAsync(Guid pageId, IReadOnlyList<PhotoFile> uploads, CancellationToken cancel)
    {
        if (!await db.ModelPages.AnyAsync(row => row.Id == pageId, cancel))
            return new ModelPageNotFound();
        var refused = new List<Failure>();
        foreach (var upload in uploads)
        {
            if (await TakeAsync(pageId, upload, cancel) is { } why)
                refused.Add(why);
        }

        await db.SaveChangesAsync(cancel);
        return new ModelPhotosTaken(uploads.Count - refused.Count, refused);
    }

    /// <summary>Adds one picture to what is about to be saved, or says why not. One that is on the page already is not added again.</summary>
    internal async Task<Failure?> TakeAsync(Guid pageId, PhotoFile upload, CancellationToken cancel)
    {
        var source = Convert.ToHexStringLower(SHA256.HashData(upload.Bytes.Span));
        if (await HasAsync(pageId, source, cancel))
            return null;
        var picture = PhotoIntake.Take(upload.Bytes.Span, upload.FileName);
        if (!picture.IsDone)
            return picture.Failure;
        var last = db.ModelPhotos.Local.Where(row => row.PageId == pageId).Max(row => (int?)row.Position)
            ?? await db.ModelPhotos.Where(row => row.PageId == pageId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        try
        {
            db.ModelPhotos.Add(new ModelPhoto
            {
                PageId = pageId,
                Caption = TypedText.OneLine(upload.Caption),
                FileHash = await files.PutAsync(picture.Value.Jpeg, cancel),
                ThumbnailHash = await files.PutAsync(picture.Value.Thumbnail, cancel),
                SourceHash = source,
                Width = picture.Value.Width,
                Height = picture.Value.Height,
                Position = last + 1,
                AddedAt = clock.GetUtcNow(),
                AddedBy = person.RequiredId,
            });
            return null;
        }
        catch (IOException)
        {
            return new NoRoomForPhoto(upload.FileName);
        }
    }

    /// <summary>Whether the picture of this hash, as it came or as it was kept, is on the page.</summary>
    internal async Task<bool> HasAsync(Guid pageId, string hash, CancellationToken cancel) =>
        await db.ModelPhotos.AnyAsync(row => row.PageId == pageId && row.RemovedAt == null && (row.SourceHash == hash || row.FileHash == hash), cancel);

    /// <summary>The picture's bytes; one taken off can still be opened by its address.</summary>
    public async Task<Result<Stream>> OpenAsync(Guid id, bool thumbnail, CancellationToken cancel)
    {
        var row = await db.ModelPhotos.Where(photo => photo.Id == id).Select(photo => new { photo.FileHash, photo.ThumbnailHash }).SingleOrDefaultAsync(cancel);
        var hash = thumbnail ? row?.ThumbnailHash : row?.FileHash;
        return hash is not null && files.Has(hash) ? files.OpenRead(hash) : new PhotoNotFound();
    }

    public Task<Result> CaptionAsync(Guid pageId, Guid id, string caption, CancellationToken cancel) =>
        ChangeAsync(pageId, id, photo => photo.Caption = TypedText.OneLine(caption), cancel);

    public Task<Result> TakeOffAsync(Guid pageId, Guid id, CancellationToken cancel) =>
        ChangeAsync(pageId, id, photo => photo.RemovedAt ??= clock.GetUtcNow(), cancel);

    public Task<Result> PutBackAsync(Guid pageId, Guid id, CancellationToken cancel) =>
        ChangeAsync(pageId, id, photo => photo.RemovedAt = null, cancel);

    private async Task<Result> ChangeAsync(Guid pageId, Guid id, Action<ModelPhoto> change, CancellationToken cancel)
    {
        if (await db.ModelPhotos.SingleOrDefaultAsync(row => row.PageId == pageId && row.Id == id, cancel) is not { } photo)
            return new PhotoNotFound();
        change(photo);
        return await db.SaveAsync(cancel);
    }
}
