using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.StripDown;
using PaperKind = RepairShop.Domain.Paperwork.PaperKind;

namespace RepairShop.Services.Repairs;

/// <summary>The way out: ready, returned, and what the owner lets pass on the way.</summary>
public sealed class LeavingService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    public async Task<Result> ReadyAsync(string number, CancellationToken cancel)
    {
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        if (repair.ReturnedAt is not null)
            return new AlreadyReturned(number);
        if (repair.ReadyAt is not null)
            return new AlreadyReady(number);
        var facts = await FactsAsync(repair.Id, cancel);
        var missing = Leaving.BeforeReady(facts);
        if (missing.Count > 0)
            return Out(number, facts, missing) is { } named ? named : new RepairNotReady(number, missing);
        (repair.ReadyAt, repair.ReadyBy) = (clock.GetUtcNow(), person.RequiredId);
        return await SaveEmptyHandedAsync(number, cancel);
    }

    /// <summary>Something turned up after all: back to the bench.</summary>
    public async Task<Result> NotReadyAsync(string number, CancellationToken cancel)
    {
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        if (repair.ReturnedAt is not null)
            return new AlreadyReturned(number);
        if (repair.ReadyAt is null)
            return new NotReadyNow(number);
        (repair.ReadyAt, repair.ReadyBy) = (null, null);
        return await db.SaveAsync(cancel);
    }

    public async Task<Result> CollectAsync(string number, HandedOver handed, CancellationToken cancel)
    {
        var (to, known) = (TypedText.OneLine(handed.ReturnedTo), TypedText.OneLine(handed.KnownBy));
        if (to.Length == 0)
            return new ReturnWithoutName();
        if (!handed.TagSeen && known.Length == 0)
            return new TagNotSeen();
        return await ReturnAsync(number, repair =>
        {
            repair.ReturnHow = ReturnWay.Collected;
            repair.ReturnedTo = handed.TagSeen ? to : $"{to} (no claim tag; {known})";
        }, cancel);
    }

    public async Task<Result> PostAsync(string number, Posting posting, CancellationToken cancel)
    {
        var (to, carrier) = (TypedText.OneLine(posting.ReturnedTo), TypedText.OneLine(posting.Carrier));
        if (to.Length == 0)
            return new ReturnWithoutName();
        if (carrier.Length == 0)
            return new CarrierMissing();
        return await ReturnAsync(number, repair =>
        {
            repair.ReturnHow = ReturnWay.Posted;
            repair.ReturnedTo = to;
            repair.Carrier = carrier;
            repair.ReturnTracking = TypedText.OneLine(posting.Tracking);
        }, cancel);
    }

    /// <summary>The owner answers for something missing, with the reason. Kept for ever.</summary>
    public async Task<Result> PassAsync(string number, StillMissing item, string reason, CancellationToken cancel)
    {
        if (!person.IsOwner)
            return new PassOnlyByOwner();
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        if (!Leaving.MayPass(item))
            return new PartsOutCantPass();
        var why = TypedText.Lines(reason);
        if (why.Length == 0)
            return new PassReasonMissing();
        var facts = await FactsAsync(repair.Id, cancel);
        if (facts.Passed.Contains(item))
            return new PassedAlready(item);
        if (!Leaving.BeforeReturn(facts).Contains(item))
            return new PassNotNeeded(item);
        db.RepairPasses.Add(new RepairPass { RepairId = repair.Id, Item = item, Reason = why, By = person.RequiredId, At = clock.GetUtcNow() });
        return await db.SaveAsync(cancel, ("ix_repair_passes_repair_id_item", new PassedAlready(item)));
    }

    /// <summary>What still stands between this repair and the way home, after what was let pass.</summary>
    internal async Task<LeavingFacts> FactsAsync(Guid repairId, CancellationToken cancel)
    {
        var passed = await db.RepairPasses.Where(row => row.RepairId == repairId).Select(row => row.Item).ToListAsync(cancel);
        var facts = await (
            from row in db.Repairs
            join stage in db.RepairStages on row.Id equals stage.RepairId
            where row.Id == repairId
            select new
            {
                HasConsent = row.ConsentBy != "",
                stage.Stage,
                UnderWarranty = row.WarrantyOfId != null,
                ClockRunning = db.LabourEntries.Any(e => e.RepairId == row.Id && e.StartedAt != null && e.EndedAt == null && e.RemovedAt == null),
                ChecksBefore = db.CheckResults.Any(c => c.RepairId == row.Id && c.Phase == Phase.AsReceived && c.Outcome != CheckOutcome.NotTested),
                ChecksAfter = db.CheckResults.Any(c => c.RepairId == row.Id && c.Phase == Phase.AfterService && c.Outcome != CheckOutcome.NotTested),
                ReadingsBefore = db.ShutterTests.Any(t => t.RepairId == row.Id && t.Phase == Phase.AsReceived && t.Readings.Any(r => r.StruckOutReason == null)),
                ReadingsAfter = db.ShutterTests.Any(t => t.RepairId == row.Id && t.Phase == Phase.AfterService && t.Readings.Any(r => r.StruckOutReason == null)),
                ServiceRecord = db.Papers.Any(p => p.RepairId == row.Id && p.Kind == PaperKind.ServiceRecord),
                Billable = db.LabourEntries.Any(e => e.RepairId == row.Id && e.Billable && e.RemovedAt == null),
                PricedParts = db.PartUses.Any(p => p.RepairId == row.Id && p.RemovedAt == null && p.UnitPrice != 0),
                Latest = db.Estimates.Where(e => e.RepairId == row.Id && e.SentAt != null).OrderByDescending(e => e.Revision)
                    .Select(e => new { e.Answer, e.StripDownCharge }).FirstOrDefault(),
                // A deposit is asked for before the work; it is not the bill for it.
                Invoices = db.Invoices.Count(i => i.RepairId == row.Id && i.Kind == InvoiceKind.Invoice && i.Basis != InvoiceBasis.Deposit && i.IssuedAt != null && (i.Credited < i.Gross + i.CashRounding || i.Gross == 0)),
                Balance = db.Invoices.Where(i => i.RepairId == row.Id && i.Kind == InvoiceKind.Invoice && i.IssuedAt != null).Sum(i => i.Gross + i.CashRounding - i.Credited - i.Paid - i.WrittenOff),
            }).SingleAsync(cancel);
        // Ready and returned hide how the last offer was answered; what may be missing still depends on it.
        var declined = facts.Latest?.Answer == EstimateAnswer.Declined;
        var nothingToCharge = declined ? facts.Latest!.StripDownCharge == 0
            : facts.UnderWarranty && !facts.Billable && !facts.PricedParts;
        return new LeavingFacts(
            facts.HasConsent, declined ? Stage.Declined : facts.Stage, facts.Latest is { Answer: null }, facts.ClockRunning,
            facts.ChecksBefore, facts.ChecksAfter, facts.ReadingsBefore, facts.ReadingsAfter, facts.ServiceRecord,
            nothingToCharge, facts.Invoices > 0, facts.Balance, passed.ToHashSet())
        {
            StillOut = await StripDownService.OutAsync(db, repairId, cancel),
        };
    }

    private async Task<Result> ReturnAsync(string number, Action<Repair> write, CancellationToken cancel)
    {
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        if (repair.ReturnedAt is not null)
            return new AlreadyReturned(number);
        var facts = await FactsAsync(repair.Id, cancel);
        var missing = Leaving.BeforeReturn(facts);
        if (missing.Count > 0)
            return Out(number, facts, missing) is { } named ? named : new RepairMayNotLeave(number, missing);
        write(repair);
        (repair.ReturnedAt, repair.ReturnedBy) = (clock.GetUtcNow(), person.RequiredId);
        return await SaveEmptyHandedAsync(number, cancel);
    }

    /// <summary>Parts that are still out are named one by one; null when it is something else that is missing.</summary>
    private static PartsStillOut? Out(string number, LeavingFacts facts, IReadOnlyList<StillMissing> missing) =>
        facts.StillOut.Count == 0 ? null
        : new PartsStillOut(number, facts.StillOut, [.. missing.Where(item => item != StillMissing.PartsStillOut)]);

    /// <summary>Somebody may have taken something out since the list was read: the database asks again.</summary>
    private Task<Result> SaveEmptyHandedAsync(string number, CancellationToken cancel) =>
        db.SaveAsync(cancel, ("nothing_left_in_the_tray", new RepairNotReady(number, [StillMissing.PartsStillOut])));

    private Task<Repair?> FindAsync(string number, CancellationToken cancel) =>
        db.Repairs.SingleOrDefaultAsync(row => row.Number == number, cancel);
}

/// <param name="ReturnedTo">Who takes the camera.</param>
/// <param name="TagSeen">The claim tag was shown.</param>
/// <param name="KnownBy">Without a tag: how it is known that this person may take it.</param>
public sealed record HandedOver(string ReturnedTo, bool TagSeen, string KnownBy);

/// <param name="ReturnedTo">To whom it is posted.</param>
/// <param name="Carrier"></param>
/// <param name="Tracking"></param>
public sealed record Posting(string ReturnedTo, string Carrier, string Tracking);
