using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;
using RepairShop.Services.Files;

namespace RepairShop.Services.Notebook;

/// <summary>A file ready to be handed out.</summary>
public sealed record HandedOut(string FileName, byte[] Bytes);

/// <summary>A word of a customer that stands in a model's pages.</summary>
/// <param name="Place">Where it would stand in the file.</param>
public sealed record PrivateWord(string Place, string Word);

/// <summary>Hands one model's pages out as a file, and looks first whether a customer is named in them.</summary>
public sealed class NotebookFileService(ShopDb db, FileStore files)
{
    private const int ShortestWord = 4;

    /// <param name="pageId">Of the model.</param>
    /// <param name="withPhotos">Own drawings and photos go along as base64.</param>
    /// <param name="cancel"></param>
    public async Task<Result<HandedOut>> WriteAsync(Guid pageId, bool withPhotos, CancellationToken cancel)
    {
        if (await FileAsync(pageId, withPhotos, cancel) is not { } file)
            return new ModelPageNotFound();
        var bytes = NotebookFileReader.Write(file);
        return bytes.Length > NotebookFileReader.MostBytes
            ? new NotebookFileTooLarge(bytes.Length)
            : new HandedOut(NameOf(file), bytes);
    }

    /// <summary>Names, companies, e-mail addresses and telephones of customers that stand in the texts: the page's writers put
    /// them there, and nobody outside should read them.</summary>
    public async Task<IReadOnlyList<PrivateWord>> PrivateWordsAsync(Guid pageId, CancellationToken cancel)
    {
        if (await FileAsync(pageId, withPhotos: false, cancel) is not { } file)
            return [];
        file = file with { Photos = await CaptionsAsync(pageId, cancel) };
        var texts = NotebookFileReader.Texts(file).Where(text => text.Text.Length > 0).ToList();
        var all = string.Join('\n', texts.Select(text => text.Text)).ToLowerInvariant();
        var words = await db.Database.SqlQuery<string>(
            $"""
            select distinct word as "Value" from customers, unnest(array[name, company, email, phone]) as said(word)
            where length(word) >= {ShortestWord} and position(lower(word) in {all}) > 0
            """).ToListAsync(cancel);
        return [.. texts.SelectMany(text => words
            .Where(word => text.Text.Contains(word, StringComparison.OrdinalIgnoreCase))
            .Select(word => new PrivateWord(text.Place, word)))];
    }

    internal async Task<NotebookFile?> FileAsync(Guid pageId, bool withPhotos, CancellationToken cancel)
    {
        if (await db.ModelPages.AsNoTracking().SingleOrDefaultAsync(row => row.Id == pageId, cancel) is not { } page)
            return null;
        var variants = await db.ModelVariants.AsNoTracking().Where(row => row.PageId == pageId && row.RemovedAt == null)
            .OrderBy(row => row.Position).ThenBy(row => row.Id).ToListAsync(cancel);
        var entries = await db.ModelEntries.AsNoTracking().Where(row => row.PageId == pageId && row.RemovedAt == null)
            .OrderBy(row => row.Position).ThenBy(row => row.Id).ToListAsync(cancel);
        var guide = await db.GuideVersions.AsNoTracking().Where(row => row.PageId == pageId).OrderByDescending(row => row.Number).FirstOrDefaultAsync(cancel);
        return new NotebookFile
        {
            Format = NotebookFile.FormatName,
            Version = NotebookFile.NewestVersion,
            Maker = page.Maker,
            Model = page.Model,
            MarkedSpeeds = page.MarkedSpeeds,
            Notes = page.Notes,
            Variants = [.. variants.Select(NotebookFileMaps.Of)],
            Entries = [.. entries.Select(NotebookFileMaps.Of)],
            Guide = guide is null ? null : new FileGuide { Note = guide.Note, Steps = [.. guide.Steps.Select(FileStep.Of)] },
            Photos = withPhotos ? await PhotosAsync(pageId, cancel) : [],
        };
    }

    private async Task<IReadOnlyList<FilePhoto>> CaptionsAsync(Guid pageId, CancellationToken cancel) =>
        await Photos(pageId).Select(row => new FilePhoto(row.Caption, Array.Empty<byte>())).ToListAsync(cancel);

    private async Task<IReadOnlyList<FilePhoto>> PhotosAsync(Guid pageId, CancellationToken cancel)
    {
        var photos = new List<FilePhoto>();
        foreach (var row in await Photos(pageId).AsNoTracking().ToListAsync(cancel))
        {
            if (files.Has(row.FileHash))
                photos.Add(new FilePhoto(row.Caption, await files.ReadAsync(row.FileHash, cancel)));
        }

        return photos;
    }

    private IQueryable<ModelPhoto> Photos(Guid pageId) =>
        db.ModelPhotos.Where(row => row.PageId == pageId && row.RemovedAt == null).OrderBy(row => row.Position).ThenBy(row => row.Id);

    /// <summary>"Nordhav Skerry 35.notebook.json", without what a file system could stumble over.</summary>
    private static string NameOf(NotebookFile file)
    {
        var name = new string([.. CameraRules.NameOf(file.Maker, file.Model, "").Select(letter => char.IsLetterOrDigit(letter) || letter is ' ' or '-' ? letter : '-')]);
        return $"{name.Trim()}.notebook.json";
    }
}

internal static class NotebookFileMaps
{
    public static FileVariant Of(ModelVariant row) => new()
    {
        Name = row.Name,
        Traits = [.. TraitsOf.Read(row).Traits.Select(trait => new FileTrait(trait.Name, trait.Value))],
        Note = row.Note,
    };

    public static FileEntry Of(ModelEntry row) => new()
    {
        Kind = row.Kind,
        Title = row.Title,
        Text = row.Text,
        Link = row.Link,
        Caution = row.Caution,
        Unit = row.Unit,
        Low = row.Low,
        High = row.High,
    };
}
