using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Repairs;

/// <summary>Writes typed booking facts to a repair, at booking in and when they are put right later.</summary>
internal static class RepairFacts
{
    public static Result Write(RepairInput input, Repair repair, ShopFace face, DateTimeOffset now)
    {
        repair.Complaint = TypedText.Lines(input.Complaint);
        var cameWith = TypedText.Each(input.CameWith);
        if (!repair.CameWith.SequenceEqual(cameWith))
            repair.CameWith = cameWith;
        repair.ConditionOnReceipt = TypedText.Lines(input.ConditionOnReceipt);
        repair.DeclaredValue = input.DeclaredValue;
        repair.ArrivedHow = input.ArrivedHow;
        repair.ArrivalTracking = TypedText.OneLine(input.ArrivalTracking);
        repair.WantedBy = input.WantedBy;
        repair.PromisedFor = input.PromisedFor;
        repair.Shelf = TypedText.OneLine(input.Shelf);
        if (!input.EstimateFirst && input.PreApprovedLimit is null)
            return new LimitMissing();
        repair.PreApprovedLimit = input.EstimateFirst ? null : input.PreApprovedLimit;
        if (Consent(input, repair, face, now) is { } refused)
            return refused;
        return BookingRules.Check(repair, DayOf(face, repair.BookedAt));
    }

    public static DateOnly DayOf(ShopFace face, DateTimeOffset at) => DateOnly.FromDateTime(face.Local(at).DateTime);

    private static ConsentInFuture? Consent(RepairInput input, Repair repair, ShopFace face, DateTimeOffset now)
    {
        repair.ConsentBy = TypedText.OneLine(input.ConsentBy);
        repair.ConsentHow = repair.ConsentBy.Length > 0 ? input.ConsentHow : null;
        if (repair.ConsentBy.Length == 0)
        {
            repair.ConsentAt = null;
            return null;
        }

        var today = DayOf(face, now);
        var day = input.ConsentOn ?? (repair.ConsentAt is { } before ? DayOf(face, before) : today);
        if (day > today)
            return new ConsentInFuture(day);
        if (repair.ConsentAt is { } kept && DayOf(face, kept) == day)
            return null;
        // Of another day only the day is known: noon stands for it in every zone the shop could be looked at from.
        var noon = day.ToDateTime(new TimeOnly(12, 0));
        repair.ConsentAt = day == today ? now : new DateTimeOffset(noon, face.TimeZone.GetUtcOffset(noon)).ToUniversalTime();
        return null;
    }
}
