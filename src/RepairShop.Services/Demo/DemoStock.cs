using RepairShop.Services.Repairs;

namespace RepairShop.Services.Demo;

/// <summary>What the jobs of the demo share: who and what is in the book by now, prices, pictures.</summary>
internal sealed class DemoStock(DemoSeed seed, string seedFolder, DateTimeOffset today, string taxKey)
{
    public Dictionary<string, Guid> Customers { get; } = [];

    public Dictionary<string, Guid> Cameras { get; } = [];

    public Dictionary<string, Guid> LastRepairOf { get; } = [];

    public DateTimeOffset Today => today;

    public string TaxKey => taxKey;

    public decimal LabourRate => seed.Shop.LabourRate;

    public decimal StripDownCharge => seed.Shop.StripDownCharge;

    public string Instrument => seed.Shop.Instrument;

    public double ResolutionMilliseconds => seed.Shop.ResolutionSeconds * 1000;

    public SeedPart Seed(string part) => seed.Parts.Single(one => one.Key == part);

    public async Task PhotoAsync(DemoBook book, string number, Guid? findingId, string name, string caption, Guid? stepId = null)
    {
        var file = await File.ReadAllBytesAsync(Path.Combine(seedFolder, "photos", name + ".jpg"), book.Cancel);
        await book.DoAsync<PhotoService, PhotosTaken>(
            "bench", photos => photos.AddAsync(number, [new PhotoFile(name + ".jpg", file, caption)], book.Cancel, findingId, stepId));
    }
}
