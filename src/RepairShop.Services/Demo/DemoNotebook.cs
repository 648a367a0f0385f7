using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Cameras;
using RepairShop.Services.Notebook;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Demo;

/// <summary>Fills the notebook of the demo workshop from files of the very kind it hands out itself, one after another as the
/// guides were improved; the record of a finished strip-down becomes a guide too.</summary>
internal sealed class DemoNotebook(DemoBook book, DemoStock stock, string seedFolder)
{
    private const string Bench = "bench";

    private static readonly (string Model, string Photo, string Caption)[] Pictures =
    [
        ("Pelter", "gears-clean", "Delay train, clean and dry"),
        ("Pelter", "blades-clean", "Blades in their order"),
        ("Skerry", "curtain-pinholes", "Pinholes near the drum, held against a lamp"),
    ];

    public async Task FillAsync(IEnumerable<SeedStripDown> strips)
    {
        var files = Directory.GetFiles(Path.Combine(seedFolder, "notebook"), "*.notebook.json").Order(StringComparer.Ordinal).ToList();
        foreach (var (file, age) in files.Select((file, i) => (file, age: files.Count - i)))
        {
            book.SetClock(stock.Today.AddDays(-60 * age));
            await TakeAsync(await File.ReadAllBytesAsync(file, book.Cancel));
        }

        foreach (var strip in strips.Where(strip => strip.Steps.All(step => step.Fate != ItemFate.StillOut || step.Remember.Contains(Remember.BackOffOnly))))
        {
            book.SetClock(stock.Today.AddDays(-strip.DaysAgo + 14));
            await KeepAsync(strip.Camera, strip.Steps);
        }
    }

    private async Task TakeAsync(byte[] file)
    {
        var looked = await book.DoAsync<NotebookImportService, ImportPreview>(Bench, import => import.LookAsync(file, book.Cancel));
        var page = await book.DoAsync<NotebookImportService, Guid>(Bench, import => import.TakeAsync(looked.Key, book.Cancel));
        if (looked.PageId is not null)
            return;
        foreach (var (_, name, caption) in Pictures.Where(picture => looked.Name.Contains(picture.Model, StringComparison.Ordinal)))
        {
            var bytes = await File.ReadAllBytesAsync(Path.Combine(seedFolder, "photos", name + ".jpg"), book.Cancel);
            await book.DoAsync<ModelPhotoService, ModelPhotosTaken>(Bench, photos => photos.AddAsync(page, [new PhotoFile(name, bytes, caption)], book.Cancel));
        }
    }

    /// <summary>"Save as the model's guide" on the latest repair of a camera.</summary>
    private async Task KeepAsync(string camera, SeedStep[] steps)
    {
        var number = "";
        await book.DoAsync<CameraService>(Bench, async cameras =>
        {
            number = (await cameras.HistoryAsync(stock.Cameras[camera], book.Cancel))[0].Number;
            return Result.Done;
        });
        var kept = await book.DoAsync<GuideService, (Guid PageId, int Number)>(
            Bench, guides => guides.SaveFromRepairAsync(number, "The first of its kind on this bench.", book.Cancel));
        var first = await book.DoAsync<GuideService, GuideView>(Bench, guides => guides.GetAsync(kept.PageId, kept.Number, book.Cancel));
        string[] ofThisOneOnly = [.. steps.Where(step => step.Fate is ItemFate.WrittenOff or ItemFate.Returned).Select(step => step.What)];
        await book.DoAsync<GuideService, int>(Bench, guides => guides.SaveGuideAsync(
            kept.PageId, [.. first.Steps.Where(step => !ofThisOneOnly.Contains(step.What))], new GuideOrigin("Without what was in this one camera only."), book.Cancel));
    }
}
