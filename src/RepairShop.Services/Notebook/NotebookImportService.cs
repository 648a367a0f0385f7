using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Notebook;

/// <summary>What taking a file would do. Nothing that is here is ever removed by it.</summary>
/// <param name="Key">Names the file until it is taken.</param>
/// <param name="PageId">The page it would add to; null when it starts one.</param>
public sealed record ImportPreview(string Key, string Name, Guid? PageId, IReadOnlyList<ImportChange> Changes, int Unchanged)
{
    public bool ChangesNothing => PageId is not null && Changes.Count == 0;
}

/// <summary>One thing a file would add or change.</summary>
/// <param name="Here">What stands here now; null where it is added.</param>
public sealed record ImportChange(string What, string? Here, string InFile);

/// <summary>Takes a model's file in two steps: first shown, then taken. The same rules decide in both.</summary>
public sealed class NotebookImportService(
    ShopDb db, FileStore files, NotebookFileService pages, ModelPhotoService photos, GuideService guides, TimeProvider clock)
{
    /// <summary>Reads the file, keeps it, and says what taking it would change.</summary>
    public async Task<Result<ImportPreview>> LookAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        var read = NotebookFileReader.Read(bytes.Span);
        if (!read.IsDone)
            return read.Failure;
        return await PreviewAsync(await files.PutAsync(bytes, cancel), read.Value, cancel);
    }

    /// <summary>Takes a file that was looked at before.</summary>
    /// <param name="key">From the preview.</param>
    /// <returns>The model's page.</returns>
    public async Task<Result<Guid>> TakeAsync(string key, CancellationToken cancel)
    {
        if (key.Length != 64 || !key.All(char.IsAsciiHexDigitLower) || !files.Has(key))
            return new NotebookFileGone();
        var read = NotebookFileReader.Read(await files.ReadAsync(key, cancel));
        if (!read.IsDone)
            return read.Failure;
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        var taken = await WriteAsync(read.Value, cancel);
        if (taken.IsDone)
            await transaction.CommitAsync(cancel);
        return taken;
    }

    private async Task<ImportPreview> PreviewAsync(string key, NotebookFile file, CancellationToken cancel)
    {
        var name = CameraRules.NameOf(file.Maker, file.Model, "");
        var pageId = await NotebookService.PageIdAsync(db, file.Maker, file.Model, cancel);
        var here = pageId is { } id ? await pages.FileAsync(id, withPhotos: false, cancel) : null;
        var changes = NotebookMerge.Changes(here, file).ToList();
        var photosHere = 0;
        foreach (var photo in file.Photos)
        {
            if (pageId is { } page && await photos.HasAsync(page, Convert.ToHexStringLower(SHA256.HashData(photo.Jpeg)), cancel))
                photosHere++;
            else
                changes.Add(new ImportChange("picture", null, photo.Caption.Length > 0 ? photo.Caption : "without a caption"));
        }

        return new ImportPreview(key, name, pageId, changes, NotebookMerge.Unchanged(here, file) + photosHere);
    }

    private async Task<Result<Guid>> WriteAsync(NotebookFile file, CancellationToken cancel)
    {
        var page = await NotebookService.PageIdAsync(db, file.Maker, file.Model, cancel) is { } id
            ? await db.ModelPages.SingleAsync(row => row.Id == id, cancel)
            : db.ModelPages.Add(new ModelPage { Maker = file.Maker, Model = file.Model, CreatedAt = clock.GetUtcNow() }).Entity;
        if (file.Notes.Length > 0)
            page.Notes = file.Notes;
        if (file.MarkedSpeeds.Count > 0 && !page.MarkedSpeeds.SequenceEqual(file.MarkedSpeeds))
            page.MarkedSpeeds = [.. file.MarkedSpeeds];
        await VariantsAsync(page.Id, file, cancel);
        await EntriesAsync(page.Id, file, cancel);
        var saved = await NotebookService.SaveAsync(db, page, cancel);
        if (!saved.IsDone)
            return saved.Failure;
        foreach (var (photo, i) in file.Photos.Select((photo, i) => (photo, i)))
        {
            if (await photos.TakeAsync(page.Id, new PhotoFile($"photos[{i}]", photo.Jpeg, photo.Caption), cancel) is { } refused)
                return new NotebookFileWrong($"photos[{i}]", refused.Message);
        }

        await db.SaveChangesAsync(cancel);
        if (file.Guide is not { } guide)
            return page.Id;
        var version = await guides.SaveGuideAsync(page.Id, [.. guide.Steps.Select(step => step.ToStep())], new GuideOrigin(guide.Note), cancel);
        return version.IsDone ? page.Id : version.Failure;
    }

    private async Task VariantsAsync(Guid pageId, NotebookFile file, CancellationToken cancel)
    {
        var rows = await db.ModelVariants.Where(row => row.PageId == pageId && row.RemovedAt == null).ToListAsync(cancel);
        var position = rows.Count == 0 ? 0 : rows.Max(row => row.Position);
        foreach (var said in file.Variants)
        {
            var row = rows.Find(one => NotebookMerge.KeyOf(NotebookFileMaps.Of(one)) == NotebookMerge.KeyOf(said));
            if (row is null)
                rows.Add(row = db.ModelVariants.Add(new ModelVariant { PageId = pageId, Position = ++position }).Entity);
            // The reader has refused what could be refused.
            _ = VariantService.Fill(row, new VariantTyped(said.Name, NotebookFileReader.Lines(said), said.Note, 0));
        }
    }

    private async Task EntriesAsync(Guid pageId, NotebookFile file, CancellationToken cancel)
    {
        var rows = await db.ModelEntries.Where(row => row.PageId == pageId && row.RemovedAt == null).ToListAsync(cancel);
        var position = rows.Count == 0 ? 0 : rows.Max(row => row.Position);
        foreach (var said in file.Entries)
        {
            var row = rows.Find(one => NotebookMerge.KeyOf(NotebookFileMaps.Of(one)) == NotebookMerge.KeyOf(said));
            if (row is null)
                rows.Add(row = db.ModelEntries.Add(new ModelEntry { PageId = pageId, Position = ++position }).Entity);
            NotebookFileReader.Fill(row, said);
        }
    }
}
