using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Repairs;

/// <summary>What is written on a repair after booking in, apart from what has a service of its own.</summary>
public sealed class RepairService(ShopDb db, ShopFace face, TimeProvider clock)
{
    public async Task<Result> ToTheBenchAsync(string number, CancellationToken cancel)
    {
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        if (repair.ReturnedAt is not null)
            return new AlreadyReturned(number);
        if (repair.ReadyAt is not null)
            return new AlreadyReady(number);
        if (repair.BenchAt is not null)
            return new AlreadyOnTheBench(number);
        repair.BenchAt = clock.GetUtcNow();
        return await db.SaveAsync(cancel);
    }

    /// <summary>The booking facts as they stand, for a form.</summary>
    public async Task<Result<RepairToEdit>> GetForEditAsync(string number, CancellationToken cancel)
    {
        if (await db.Repairs.AsNoTracking().SingleOrDefaultAsync(row => row.Number == number, cancel) is not { } repair)
            return new RepairNotFound(number);
        var facts = new RepairInput
        {
            Complaint = repair.Complaint,
            CameWith = repair.CameWith,
            ConditionOnReceipt = repair.ConditionOnReceipt,
            DeclaredValue = repair.DeclaredValue,
            ArrivedHow = repair.ArrivedHow,
            ArrivalTracking = repair.ArrivalTracking,
            WantedBy = repair.WantedBy,
            PromisedFor = repair.PromisedFor,
            EstimateFirst = repair.PreApprovedLimit is null,
            PreApprovedLimit = repair.PreApprovedLimit,
            ConsentBy = repair.ConsentBy,
            ConsentHow = repair.ConsentHow,
            ConsentOn = repair.ConsentAt is { } at ? RepairFacts.DayOf(face, at) : null,
            Shelf = repair.Shelf,
        };
        return new RepairToEdit(number, facts, new ClosingTexts(repair.Advice, repair.LeftAlone, repair.PartsReturned), repair.Version);
    }

    public async Task<Result> ChangeFactsAsync(string number, uint version, RepairInput input, CancellationToken cancel)
    {
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        if (repair.ReturnedAt is not null)
            return new AlreadyReturned(number);
        if (RepairFacts.Write(input, repair, face, clock.GetUtcNow()) is { IsDone: false } refused)
            return refused;
        db.Entry(repair).Property(row => row.Version).OriginalValue = version;
        return await db.SaveAsync(cancel);
    }

    public async Task<Result> ChangeTextsAsync(string number, uint version, ClosingTexts texts, CancellationToken cancel)
    {
        if (await FindAsync(number, cancel) is not { } repair)
            return new RepairNotFound(number);
        repair.Advice = TypedText.Lines(texts.Advice);
        repair.LeftAlone = TypedText.Lines(texts.LeftAlone);
        repair.PartsReturned = TypedText.Lines(texts.PartsReturned);
        db.Entry(repair).Property(row => row.Version).OriginalValue = version;
        return await db.SaveAsync(cancel);
    }

    private Task<Repair?> FindAsync(string number, CancellationToken cancel) =>
        db.Repairs.SingleOrDefaultAsync(row => row.Number == number, cancel);
}

public sealed record RepairToEdit(string Number, RepairInput Facts, ClosingTexts Texts, uint Version);

/// <summary>What the service record says at its end.</summary>
public sealed record ClosingTexts(string Advice, string LeftAlone, string PartsReturned);
