using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Post;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Files;
using RepairShop.Services.Post;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;

namespace RepairShop.Services.Paperwork;

/// <summary>A paper in a list.</summary>
public sealed record PaperView(Guid Id, PaperKind Kind, string Number, DateTimeOffset IssuedAt, string IssuedBy, int Bytes);

/// <summary>The papers of one repair, newest first.</summary>
public sealed record PaperList(Guid RepairId, string RepairNumber, string Camera, string Customer, string CustomerEmail, IReadOnlyList<PaperView> Papers);

/// <summary>A paper's very bytes.</summary>
public sealed record PaperFile(string FileName, string Hash, byte[] Bytes);

/// <summary>A paper's facts, for the page that says the same.</summary>
public sealed record PaperPage(Guid Id, PaperKind Kind, PaperFacts Facts);

/// <summary>Makes papers that hang on no other step (claim tag, bench sheet, service record), and gives every paper out again.</summary>
public sealed class PaperService(
    ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock, CeilingService ceilings, LetterService letters,
    StripDownService stripDown, CleaningListService cleaning, WorkService repairs)
{
    public async Task<Result<PaperList>> ListAsync(string number, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var papers = await db.Papers.AsNoTracking().Where(row => row.RepairId == file.Repair.Id).OrderByDescending(row => row.Id)
            .Select(row => new PaperView(
                row.Id, row.Kind, row.Number, row.IssuedAt,
                db.Users.Where(account => account.Id == row.IssuedBy).Select(account => account.DisplayName).FirstOrDefault() ?? "",
                row.Bytes)).ToListAsync(cancel);
        return new PaperList(file.Repair.Id, number, file.CameraName, file.Customer.Name, file.Customer.Email, papers);
    }

    /// <param name="number">Of the repair.</param>
    /// <param name="kind">Claim tag, its page, bench sheet or service record; the others are made where they are sent or issued.</param>
    /// <param name="bookAddress">Where this book is reached, for the QR code: https://book.example.com.</param>
    /// <param name="byMail">Send it to the customer too.</param>
    /// <param name="cancel"></param>
    public async Task<Result<IssuedPaper>> MakeAsync(string number, PaperKind kind, string bookAddress, bool byMail, CancellationToken cancel)
    {
        if (kind is PaperKind.Estimate or PaperKind.Invoice or PaperKind.CreditNote or PaperKind.Statement or PaperKind.Reminder)
            return new PaperMadeElsewhere(kind);
        if (kind == PaperKind.TrayLabel && !await db.Trays.AnyAsync(row => db.Repairs.Any(repair => repair.Id == row.RepairId && repair.Number == number), cancel))
            return new NoTrayToLabel(number);
        if (byMail && kind != PaperKind.ServiceRecord)
            return new PaperNotMailed(kind);
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var count = await db.Papers.CountAsync(row => row.RepairId == file.Repair.Id && row.Kind == kind, cancel);
        var facts = await FactsAsync(file, kind, $"{number}-{Letter(kind)}{count + 1}", $"{bookAddress.TrimEnd('/')}/repairs/{number}", cancel);
        var paper = await PaperPress.PressAsync(
            db, files, kind, facts, new PaperOf(file.Repair.Id, person.RequiredId), cancel, await PhotosAsync(facts, cancel));
        if (byMail && await letters.WriteAsync(
            file, MailKind.ServiceRecord, new Dictionary<string, string> { ["paper"] = paper.Number }, [paper.Id], cancel) is { IsDone: false } unwritten)
            return unwritten.Failure;
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return paper;
    }

    /// <summary>The bytes as they were issued, checked against their hash.</summary>
    public async Task<Result<PaperFile>> OpenAsync(Guid id, CancellationToken cancel) =>
        await db.Papers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is { } paper
            ? await CheckedAsync(paper.Number, PaperNames.FileName(paper), paper.FileHash, cancel)
            : new NoSuchPaper();

    /// <summary>The electronic invoice stored beside a paper, checked in the same way.</summary>
    public async Task<Result<PaperFile>> OpenEInvoiceAsync(Guid id, CancellationToken cancel) =>
        await db.Papers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id && row.EInvoiceHash != "", cancel) is { } paper
            ? await CheckedAsync(paper.Number, PaperNames.EInvoiceFileName(paper), paper.EInvoiceHash, cancel)
            : new NoSuchPaper();

    public async Task<Result<PaperPage>> ReadAsync(Guid id, CancellationToken cancel) =>
        await db.Papers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is { } paper
            ? new PaperPage(id, paper.Kind, PaperJson.Read(paper.Kind, paper.Facts))
            : new NoSuchPaper();

    private async Task<Result<PaperFile>> CheckedAsync(string number, string name, string hash, CancellationToken cancel)
    {
        if (!files.Has(hash))
            return new PaperFileMissing(number, hash);
        var bytes = await files.ReadAsync(hash, cancel);
        var found = Convert.ToHexStringLower(SHA256.HashData(bytes));
        return found == hash ? new PaperFile(name, hash, bytes) : new PaperDamaged(number, hash, found);
    }

    private async Task<PaperFacts> FactsAsync(RepairFile file, PaperKind kind, string paperNumber, string url, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        switch (kind)
        {
            case PaperKind.ServiceRecord:
                return ServiceRecordFactsBuilder.Build(file, await WorkAsync(file, cancel), paperNumber, person.Name, now);
            case PaperKind.BenchSheet:
                var offer = await db.Estimates.AsNoTracking().Include(row => row.Lines)
                    .Where(row => row.RepairId == file.Repair.Id && row.SentAt != null).OrderByDescending(row => row.Revision).FirstOrDefaultAsync(cancel);
                var checks = await db.CheckItems.AsNoTracking().Where(item => item.RetiredAt == null).ToListAsync(cancel);
                var ceiling = await ceilings.OfAsync(file.Repair.Id, cancel);
                return BenchSheetFactsBuilder.Build(
                    file, offer, ceiling.UpTo, checks, await stripDown.OfAsync(file.Repair.Id, cancel), await cleaning.ListAsync(cancel), paperNumber, url, person.Name, now);
            case PaperKind.TrayLabel:
                return StripDownFacts.Labels(file, await stripDown.OfAsync(file.Repair.Id, cancel), paperNumber, url, person.Name, now);
            default:
                return ClaimTagFactsBuilder.Build(file, paperNumber, url, person.Name, now);
        }
    }

    private async Task<WorkDone> WorkAsync(RepairFile file, CancellationToken cancel)
    {
        var id = file.Repair.Id;
        var tests = await db.ShutterTests.AsNoTracking().Include(row => row.Readings).Where(row => row.RepairId == id).ToListAsync(cancel);
        var measurers = tests.Select(test => test.MeasuredBy).ToList();
        var names = await db.Users.Where(account => measurers.Contains(account.Id)).ToDictionaryAsync(account => account.Id, account => account.DisplayName, cancel);
        var days = await db.LabourEntries.Where(row => row.RepairId == id && row.RemovedAt == null).Select(row => row.WorkDate).ToListAsync(cancel);
        return new WorkDone(
            await db.Findings.AsNoTracking().Where(row => row.RepairId == id && row.RemovedAt == null).ToListAsync(cancel),
            await db.Photos.AsNoTracking().Where(row => row.RepairId == id && row.RemovedAt == null).ToListAsync(cancel),
            await db.CheckResults.AsNoTracking().Where(row => row.RepairId == id && row.Phase != Phase.DuringWork).ToListAsync(cancel),
            await db.PartUses.AsNoTracking().Where(row => row.RepairId == id && row.RemovedAt == null).ToListAsync(cancel),
            ShutterSessions.Of(tests, file.Camera, file.Shop, names),
            await RecordedSessions.ReadAsync(db, id, cancel),
            await stripDown.OfAsync(id, cancel),
            await repairs.IsDeclinedAsync(id, cancel),
            days.Count > 0 ? days.Min() : null,
            days.Count > 0 ? days.Max() : null);
    }

    private async Task<IReadOnlyDictionary<string, byte[]>?> PhotosAsync(PaperFacts facts, CancellationToken cancel)
    {
        if (facts is not ServiceRecordFacts record)
            return null;
        var photos = new Dictionary<string, byte[]>();
        foreach (var hash in record.Findings.SelectMany(finding => finding.Photos).Select(photo => photo.Sha256).Distinct().Where(files.Has))
            photos[hash] = await files.ReadAsync(hash, cancel);
        return photos;
    }

    private static char Letter(PaperKind kind) => kind switch
    {
        PaperKind.ServiceRecord => 'S',
        PaperKind.BenchSheet => 'B',
        PaperKind.ClaimTag => 'L',
        PaperKind.TrayLabel => 'Y',
        _ => 'T',
    };
}
