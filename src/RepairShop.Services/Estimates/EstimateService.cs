using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Estimates;

/// <summary>Drafts of estimates, and reading all revisions.</summary>
public sealed class EstimateService(ShopDb db, CurrentPerson person, TimeProvider clock, CeilingService ceilings)
{
    private const string OneRevision = "ix_estimates_repair_id_revision";

    public async Task<Result<EstimateSheet>> SheetAsync(string number, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var now = clock.GetUtcNow();
        var today = file.Shop.Today(now);
        var estimates = await db.Estimates.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == file.Repair.Id).OrderBy(row => row.Revision).ToListAsync(cancel);
        var papers = await db.Papers.AsNoTracking()
            .Where(row => row.RepairId == file.Repair.Id && row.Kind == PaperKind.Estimate)
            .Select(row => new { row.Id, row.EstimateId }).ToListAsync(cancel);
        var ids = estimates.Select(estimate => estimate.Id).ToList();
        var linked = await db.AnswerLinks.AsNoTracking()
            .Where(link => ids.Contains(link.EstimateId) && link.RevokedAt == null && link.ExpiresAt > now)
            .Select(link => link.EstimateId).ToListAsync(cancel);
        return new EstimateSheet(
            number, file.CameraName, file.Customer.Name, file.Customer.Email, file.Shop.Currency, file.Repair.ReturnedAt is not null,
            [.. estimates.Select(estimate => View(
                estimate, today, papers.FirstOrDefault(paper => paper.EstimateId == estimate.Id)?.Id, linked.Contains(estimate.Id)))],
            await ceilings.OfAsync(file.Repair, file.Shop, cancel));
    }

    /// <summary>The draft, or a suggestion: the last revision's lines, or for a first offer one labour line at the shop's rate.</summary>
    public async Task<Result<EstimateForm>> FormAsync(string number, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        var estimates = await db.Estimates.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == file.Repair.Id).OrderBy(row => row.Revision).ToListAsync(cancel);
        var draft = estimates.SingleOrDefault(estimate => estimate.SentAt is null);
        var terms = await TermsAsync(file, cancel);
        var taxes = await DraftLines.TaxChoicesAsync(
            db, terms, Today(file), (draft ?? estimates.LastOrDefault())?.Lines.Select(line => (line.TaxName, line.TaxPercent, line.TaxCategory)) ?? [], cancel);
        var parts = await db.Parts.AsNoTracking().Where(part => part.RetiredAt == null).OrderBy(part => part.Name).Take(500)
            .Select(part => new PartChoice(part.Id, part.Number, part.Name, part.Price, part.OnHand)).ToListAsync(cancel);
        return new EstimateForm(
            number, file.CameraName, draft?.Revision ?? estimates.Count + 1, draft?.Version,
            draft is not null ? AsForm(draft) : Suggestion(file.Shop, estimates.LastOrDefault(), taxes, terms), taxes,
            draft?.PricesIncludeTax ?? terms.PricesIncludeTax, draft?.Currency ?? file.Shop.Currency, parts);
    }

    /// <summary>Keeps the draft; makes it when there is none.</summary>
    /// <param name="number"></param>
    /// <param name="typed"></param>
    /// <param name="version">Of the draft the form was filled from; null for a new one.</param>
    /// <param name="cancel"></param>
    /// <param name="toSend">It is sent at once: what the customer has been told already is not even kept.</param>
    /// <returns>The revision.</returns>
    public async Task<Result<int>> SaveDraftAsync(string number, EstimateDraft typed, uint? version, CancellationToken cancel, bool toSend = false)
    {
        // Held as whoever sends the draft holds it: else the two wait for each other for ever.
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        if (file.Repair.ReturnedAt is not null)
            return new RepairHasGoneHome(number);
        var estimates = await db.Estimates.Include(row => row.Lines).Where(row => row.RepairId == file.Repair.Id).ToListAsync(cancel);
        var draft = estimates.SingleOrDefault(estimate => estimate.SentAt is null);
        if (draft is null && version is not null)
            return new EstimateNotDraft(estimates.Max(estimate => estimate.Revision));
        var before = draft ?? estimates.MaxBy(estimate => estimate.Revision);
        var terms = await TermsAsync(file, cancel);
        var taxes = await DraftLines.TaxChoicesAsync(
            db, terms, Today(file), before?.Lines.Select(line => (line.TaxName, line.TaxPercent, line.TaxCategory)) ?? [], cancel);
        if (Check(typed, taxes, file.Shop.Today(clock.GetUtcNow())) is { IsDone: false } refused)
            return refused.Failure;
        if (draft is not null && draft.Version != version)
            return new ChangedMeanwhile(EstimateDifferences.Between(AsForm(draft), typed));
        draft ??= New(file, terms, estimates.Count + 1);
        Fill(draft, typed, taxes);
        if (InvoiceRules.MayKeep(EstimateTotals.Of(draft).High, draft.Currency) is { IsDone: false } tooLarge)
            return tooLarge.Failure;
        var sent = estimates.Where(estimate => estimate.SentAt is not null).MaxBy(estimate => estimate.Revision);
        if (toSend && EstimateRules.IsSaidAlready(draft, sent, Today(file)))
            return new EstimateSaysTheSame(sent!.Revision);
        if (await db.SaveAsync(cancel, (OneRevision, new EstimateDraftWaiting(draft.Revision))) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return draft.Revision;
    }

    public async Task<Result> DiscardDraftAsync(string number, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        await RepairFile.LockAsync(db, number, cancel);
        var draft = await db.Estimates.Include(row => row.Lines)
            .SingleOrDefaultAsync(row => row.SentAt == null && db.Repairs.Any(repair => repair.Id == row.RepairId && repair.Number == number), cancel);
        if (draft is null)
            return Result.Done; // thrown away already, perhaps by the first of two clicks
        db.EstimateLines.RemoveRange(draft.Lines);
        db.Estimates.Remove(draft);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    /// <summary>A new draft with the same lines; the old revision stays as it is.</summary>
    public async Task<Result<int>> ReviseAsync(string number, int revision, CancellationToken cancel)
    {
        if (await RepairFile.ReadAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        if (file.Repair.ReturnedAt is not null)
            return new RepairHasGoneHome(number);
        var estimates = await db.Estimates.AsNoTracking().Include(row => row.Lines).Where(row => row.RepairId == file.Repair.Id).ToListAsync(cancel);
        if (estimates.SingleOrDefault(estimate => estimate.Revision == revision) is not { } old)
            return new NoSuchEstimate(revision);
        var drafted = estimates.SingleOrDefault(estimate => estimate.SentAt is null)?.Revision;
        if (EstimateRules.MayRevise(old, drafted) is { IsDone: false } refused)
            return refused.Failure;
        var terms = await TermsAsync(file, cancel);
        var taxes = await DraftLines.TaxChoicesAsync(db, terms, Today(file), old.Lines.Select(line => (line.TaxName, line.TaxPercent, line.TaxCategory)), cancel);
        var draft = New(file, terms, estimates.Count + 1);
        var today = file.Shop.Today(clock.GetUtcNow());
        Fill(draft, AsForm(old) with { ValidUntil = today.AddDays(file.Shop.EstimateValidDays) }, taxes);
        var saved = await db.SaveAsync(cancel, (OneRevision, new EstimateDraftWaiting(draft.Revision)));
        return saved.IsDone ? draft.Revision : saved.Failure;
    }

    private static Result Check(EstimateDraft typed, IReadOnlyList<TaxChoice> taxes, DateOnly today)
    {
        if (typed.StripDownCharge is < 0 or >= Amount.Most)
            return new StripDownChargeOutOfRange(typed.StripDownCharge);
        if (typed.ValidUntil < today)
            return new ValidUntilPassed(typed.ValidUntil);
        return DraftLines.Check(typed.Lines, taxes);
    }

    private DateOnly Today(RepairFile file) => file.Shop.Today(clock.GetUtcNow());

    private Task<TaxTerms> TermsAsync(RepairFile file, CancellationToken cancel) =>
        TaxTermsReader.ReadAsync(db, file.Shop, null, file.Customer.TaxProfileId, Today(file), cancel);

    private Estimate New(RepairFile file, TaxTerms terms, int revision)
    {
        var draft = new Estimate
        {
            RepairId = file.Repair.Id,
            Revision = revision,
            CreatedAt = clock.GetUtcNow(),
            CreatedBy = person.RequiredId,
            Currency = file.Shop.Currency,
            PricesIncludeTax = terms.PricesIncludeTax,
        };
        db.Estimates.Add(draft);
        return draft;
    }

    private void Fill(Estimate draft, EstimateDraft typed, IReadOnlyList<TaxChoice> taxes)
    {
        draft.WhatWasSeen = typed.WhatWasSeen.Trim();
        draft.NeedsConsent = typed.NeedsConsent.Trim();
        draft.StripDownCharge = typed.StripDownCharge;
        draft.ValidUntil = typed.ValidUntil;
        var kept = draft.Lines.OrderBy(line => line.Position).ToList();
        for (var index = 0; index < typed.Lines.Count; index++)
        {
            var line = index < kept.Count ? kept[index] : new EstimateLine { EstimateId = draft.Id };
            if (index >= kept.Count)
                db.EstimateLines.Add(line);
            Fill(line, typed.Lines[index], index + 1, taxes);
        }
        db.EstimateLines.RemoveRange(kept.Skip(typed.Lines.Count));
        // The draft's row is written even when only a line changed: its version guards them all.
        if (db.Entry(draft).State != EntityState.Added)
            db.Entry(draft).Property(row => row.WhatWasSeen).IsModified = true;
    }

    private static void Fill(EstimateLine line, DraftLine typed, int position, IReadOnlyList<TaxChoice> taxes)
    {
        line.Position = position;
        line.Kind = typed.Kind;
        line.Text = typed.Text.Trim();
        line.LowQuantity = typed.LowQuantity;
        line.HighQuantity = typed.HighQuantity;
        line.Unit = typed.Unit.Trim();
        line.UnitPrice = typed.UnitPrice;
        (line.TaxName, line.TaxPercent, line.TaxCategory) = DraftLines.TaxOf(typed, taxes);
    }

    private EstimateDraft Suggestion(ShopSettings shop, Estimate? last, IReadOnlyList<TaxChoice> taxes, TaxTerms terms)
    {
        var validUntil = shop.Today(clock.GetUtcNow()).AddDays(shop.EstimateValidDays);
        return last is null ? First(shop, validUntil, DraftLines.Default(taxes, terms, LineKind.Labour)) : AsForm(last) with { ValidUntil = validUntil };
    }

    private static EstimateDraft First(ShopSettings shop, DateOnly validUntil, TaxChoice? tax) => new()
    {
        ValidUntil = validUntil,
        StripDownCharge = shop.StripDownCharge,
        Lines = [new DraftLine(LineKind.Labour, "Labour", 1, 2, "h", shop.LabourRate, tax?.Key ?? "")],
    };

    private static EstimateDraft AsForm(Estimate estimate) => new()
    {
        WhatWasSeen = estimate.WhatWasSeen,
        NeedsConsent = estimate.NeedsConsent,
        StripDownCharge = estimate.StripDownCharge,
        ValidUntil = estimate.ValidUntil,
        Lines = [.. estimate.Lines.OrderBy(line => line.Position).Select(line => new DraftLine(
            line.Kind, line.Text, line.LowQuantity, line.HighQuantity, line.Unit, line.UnitPrice, TaxChoice.KeyOf(line.TaxName, line.TaxPercent)))],
    };

    private static EstimateView View(Estimate estimate, DateOnly today, Guid? paper, bool hasLink) => new(
        estimate.Revision, estimate.StateOn(today), estimate.WhatWasSeen, estimate.NeedsConsent, estimate.StripDownCharge,
        estimate.ValidUntil, estimate.Currency, estimate.PricesIncludeTax, EstimateTotals.Of(estimate),
        [.. estimate.Lines.OrderBy(line => line.Position)], estimate.SentAt, estimate.AnsweredBy, estimate.AnsweredAt,
        estimate.AnsweredHow, estimate.AnswerNote, paper, hasLink);
}
