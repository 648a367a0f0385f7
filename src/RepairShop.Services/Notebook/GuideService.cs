using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.StripDown;

namespace RepairShop.Services.Notebook;

/// <summary>Where a version of a guide comes from.</summary>
/// <param name="Note">What was improved.</param>
/// <param name="FromRepairId">The repair whose record it is; null when written by hand or brought in.</param>
/// <param name="BasedOn">The version it was made from, 0 for none; null when that does not matter.</param>
public sealed record GuideOrigin(string Note, Guid? FromRepairId = null, int? BasedOn = null);

/// <summary>The guides of the notebook: read, compared, and saved as ever newer versions.</summary>
public sealed class GuideService(ShopDb db, StripStepService strip, CurrentPerson person, TimeProvider clock)
{
    public async Task<Result<GuideView>> NewestAsync(Guid pageId, CancellationToken cancel) =>
        await db.GuideVersions.Where(row => row.PageId == pageId).MaxAsync(row => (int?)row.Number, cancel) is { } newest
            ? await GetAsync(pageId, newest, cancel)
            : new GuideNotFound();

    public async Task<Result<GuideView>> GetAsync(Guid pageId, int number, CancellationToken cancel)
    {
        var row = await db.GuideVersions.AsNoTracking().Where(guide => guide.PageId == pageId && guide.Number == number)
            .Select(guide => new
            {
                guide,
                Newest = db.GuideVersions.Where(other => other.PageId == pageId).Max(other => other.Number),
                Repair = db.Repairs.Where(repair => repair.Id == guide.FromRepairId).Select(repair => repair.Number).FirstOrDefault(),
                By = db.Users.Where(user => user.Id == guide.SavedBy).Select(user => user.DisplayName).FirstOrDefault(),
            }).SingleOrDefaultAsync(cancel);
        return row is null
            ? new GuideNotFound()
            : new GuideView(row.guide.Number, row.Newest, row.guide.Steps, row.guide.Note, row.Repair, row.guide.SavedAt, row.By ?? "");
    }

    /// <summary>All versions, the newest first.</summary>
    public async Task<IReadOnlyList<GuideLine>> VersionsAsync(Guid pageId, CancellationToken cancel) =>
        await db.GuideVersions.Where(row => row.PageId == pageId).OrderByDescending(row => row.Number)
            .Select(row => new GuideLine(
                row.Number, row.Note,
                db.Repairs.Where(repair => repair.Id == row.FromRepairId).Select(repair => repair.Number).FirstOrDefault(),
                row.SavedAt,
                db.Users.Where(user => user.Id == row.SavedBy).Select(user => user.DisplayName).FirstOrDefault() ?? ""))
            .ToListAsync(cancel);

    /// <summary>Saves steps as the next version; steps that are those of the newest version make none.</summary>
    /// <returns>The number of the version that now holds the steps.</returns>
    public async Task<Result<int>> SaveGuideAsync(Guid pageId, IReadOnlyList<GuideStep> steps, GuideOrigin origin, CancellationToken cancel)
    {
        if (!await db.ModelPages.AnyAsync(row => row.Id == pageId, cancel))
            return new ModelPageNotFound();
        var kept = GuideRules.Check(steps);
        if (!kept.IsDone)
            return kept.Failure;
        var newest = await db.GuideVersions.AsNoTracking().Where(row => row.PageId == pageId).OrderByDescending(row => row.Number).FirstOrDefaultAsync(cancel);
        if (newest is not null && newest.Steps.SequenceEqual(kept.Value))
            return newest.Number;
        if (origin.BasedOn is { } basis && basis != (newest?.Number ?? 0))
            return new GuideSavedMeanwhile(newest?.Number ?? 0);
        var number = (newest?.Number ?? 0) + 1;
        db.GuideVersions.Add(new GuideVersion
        {
            PageId = pageId,
            Number = number,
            Steps = kept.Value,
            Text = GuideRules.TextOf(kept.Value),
            Note = TypedText.Lines(origin.Note),
            FromRepairId = origin.FromRepairId,
            SavedAt = clock.GetUtcNow(),
            SavedBy = person.RequiredId,
        });
        var saved = await db.SaveAsync(cancel, (GuideVersionConfiguration.OneNumber, new GuideSavedMeanwhile(number)));
        return saved.IsDone ? number : saved.Failure;
    }

    /// <summary>What a repair's record says, as steps of a guide: what was struck out never happened.</summary>
    public async Task<IReadOnlyList<GuideStep>> StepsOfRepairAsync(Guid repairId, CancellationToken cancel)
    {
        var steps = await db.StripSteps.AsNoTracking().Where(row => row.RepairId == repairId && row.StruckOutAt == null)
            .OrderBy(row => row.Rank).ThenBy(row => row.Id).ToListAsync(cancel);
        return [.. steps.Select(GuideStep.Of)];
    }

    /// <summary>"It came off": writes a step of the guide at the end of a repair's record, as the guide says it.</summary>
    /// <param name="repairId">The repair on the bench.</param>
    /// <param name="version">The version that was followed.</param>
    /// <param name="place">Of the step in that version, from 0.</param>
    /// <param name="once">Made with the button, so that pressing twice writes one step.</param>
    /// <param name="cancel"></param>
    public async Task<Result<Guid>> TakeStepAsync(Guid repairId, int version, int place, Guid once, CancellationToken cancel)
    {
        var pageId = await (
            from repair in db.Repairs
            join camera in db.Cameras on repair.CameraId equals camera.Id
            where repair.Id == repairId
            select new { camera.Maker, camera.Model }).SingleOrDefaultAsync(cancel) is { } model
            ? await NotebookService.PageIdAsync(db, model.Maker, model.Model, cancel)
            : null;
        if (pageId is null || (await GetAsync(pageId.Value, version, cancel)).Value?.Steps.ElementAtOrDefault(place) is not { } step)
            return new GuideNotFound();
        return await strip.AddAsync(repairId, step.ToFacts(), new StepEntry(once), cancel);
    }

    /// <summary>"Save as the model's guide": the record of a repair becomes the next version, of a page started for it if need be.</summary>
    public async Task<Result<(Guid PageId, int Number)>> SaveFromRepairAsync(string number, string note, CancellationToken cancel)
    {
        var camera = await (
            from repair in db.Repairs
            join one in db.Cameras on repair.CameraId equals one.Id
            where repair.Number == number
            select new { repair.Id, one.Maker, one.Model, one.MarkedSpeeds }).SingleOrDefaultAsync(cancel);
        if (camera is null)
            return new RepairNotFound(number);
        var steps = await StepsOfRepairAsync(camera.Id, cancel);
        if (steps.Count == 0)
            return new GuideEmpty();
        if (await NotebookService.PageIdAsync(db, camera.Maker, camera.Model, cancel) is not { } pageId)
        {
            var page = new ModelPage { Maker = camera.Maker, Model = camera.Model, MarkedSpeeds = camera.MarkedSpeeds, CreatedAt = clock.GetUtcNow() };
            if (NotebookRules.WhyNot(page) is { } refused)
                return refused;
            db.ModelPages.Add(page);
            pageId = page.Id;
            if (await NotebookService.SaveAsync(db, page, cancel) is { IsDone: false } twice)
                return twice.Failure;
        }

        var saved = await SaveGuideAsync(pageId, steps, new GuideOrigin(note, camera.Id), cancel);
        return saved.IsDone ? (pageId, saved.Value) : saved.Failure;
    }
}
