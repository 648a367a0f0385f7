using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Repairs;

/// <summary>What may be written at the counter about a camera that comes in.</summary>
public static class BookingRules
{
    /// <summary>Shop's day of booking in, and the customer's wishes: the first rule broken; done when none.</summary>
    public static Result Check(Repair repair, DateOnly bookedOn)
    {
        if (repair.Complaint.Length == 0)
            return new ComplaintMissing();
        if (repair.WantedBy is { } wanted && wanted < bookedOn)
            return new WantedByPassed(wanted);
        if (repair.WantedBy is { } late && late > bookedOn.AddYears(5))
            return new DateTooFar("WantedBy", "Wanted by", late);
        if (repair.PromisedFor is { } promised && promised < bookedOn)
            return new PromisedBeforeBooking(promised);
        if (repair.PromisedFor is { } far && far > bookedOn.AddYears(5))
            return new DateTooFar("PromisedFor", "Promised for", far);
        if (WhyNot("DeclaredValue", "Declared value", repair.DeclaredValue) is { } value)
            return value;
        if (WhyNot("PreApprovedLimit", "Pre-approved limit", repair.PreApprovedLimit) is { } limit)
            return limit;
        if (repair.ConsentBy.Length > 0 && repair.ConsentHow is null)
            return new ConsentHowMissing();
        return Result.Done;
    }

    private static Failure? WhyNot(string field, string label, decimal? amount) => amount switch
    {
        < 0 => new AmountBelowZero(field, label, amount.Value),
        >= Amount.Most => new AmountTooLarge(field, label),
        _ => null,
    };
}
