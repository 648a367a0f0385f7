using System.Globalization;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Repairs;

public sealed record RepairNotFound(string Number) : NotFound($"There is no repair {Number}: check the number on the claim tag.");

public sealed record ComplaintMissing() : Invalid("Complaint", "Complaint is empty: write what is wrong, in the customer's words.");

public sealed record WantedByPassed(DateOnly Date) : Invalid("WantedBy", $"Wanted by {DayText.Write(Date)} is in the past: choose today or later.");

public sealed record DateTooFar(string Field, string Label, DateOnly Date)
    : Invalid(Field, $"{Label} {DayText.Write(Date)} is more than five years away: check the year.");

public sealed record PromisedBeforeBooking(DateOnly Date)
    : Invalid("PromisedFor", $"Promised for {DayText.Write(Date)} is before the camera came in: choose a later day.");

public sealed record AmountBelowZero(string Field, string Label, decimal Amount)
    : Invalid(Field, $"{Label} {Amount:0.##} is below zero: type an amount, or leave it empty.");

public sealed record AmountTooLarge(string Field, string Label)
    : Invalid(Field, $"{Label} is more than the book can hold: write less than {Amount.Most.ToString("N0", CultureInfo.CurrentCulture)}.");

public sealed record LimitMissing() : Invalid("PreApprovedLimit", "The pre-approved limit is empty: type the amount, or choose “Estimate first”.");

public sealed record ConsentHowMissing() : Invalid("ConsentHow", "Say how the customer agreed to the conditions: in person, by phone, by e-mail or by letter.");

public sealed record ConsentInFuture(DateOnly Date) : Invalid("ConsentOn", $"They can’t have agreed on {DayText.Write(Date)}, which is in the future: choose today or earlier.");

public sealed record WarrantyOfAnotherCamera() : Conflict("The earlier repair was of another camera, so its warranty does not cover this one: clear the warranty tick.");

public sealed record WarrantyOver(string Number, DateOnly Until)
    : Conflict($"The warranty of repair {Number} ended on {DayText.Write(Until)}: clear the warranty tick.");

/// <summary>Something must be done, or be let pass by the owner, first.</summary>
public sealed record RepairNotReady(string Number, IReadOnlyList<StillMissing> Missing)
    : Conflict($"Repair {Number} can't be called ready yet. Still missing: {MissingWords.List(Missing)}.");

/// <summary>Something must be done, or be let pass by the owner, before the camera leaves.</summary>
public sealed record RepairMayNotLeave(string Number, IReadOnlyList<StillMissing> Missing)
    : Conflict($"Repair {Number} can't go home yet. Still missing: {MissingWords.List(Missing)}.");

/// <summary>Something is still lying in a tray. Each thing is named with its cell, so that it is found and not waved through.</summary>
public sealed record PartsStillOut(string Number, IReadOnlyList<OutItem> Items, IReadOnlyList<StillMissing> AlsoMissing)
    : Conflict($"Repair {Number} can't be called ready or go home. Still out of the camera: {string.Join("; ", Items)}. "
        + "Refit each, or say that it was replaced, returned in the bag or written off."
        + (AlsoMissing.Count > 0 ? $" Also missing: {MissingWords.List(AlsoMissing)}." : ""));

public sealed record PartsOutCantPass()
    : Conflict("Parts that are still out can't be let pass as a whole: refit each, or write it off by name with a reason.");

public sealed record AlreadyReady(string Number) : Conflict($"Repair {Number} is ready already.");

public sealed record NotReadyNow(string Number) : Conflict($"Repair {Number} is not called ready, so there is nothing to take back.");

public sealed record AlreadyReturned(string Number) : Conflict($"Repair {Number} has gone home already, so its course can't be changed.");

public sealed record AlreadyOnTheBench(string Number) : Conflict($"Repair {Number} has been taken to the bench already.");

public sealed record ReturnWithoutName() : Invalid("ReturnedTo", "The name is empty: type who takes the camera, or to whom it is posted.");

public sealed record TagNotSeen() : Invalid("KnownBy", "No claim tag was seen: tick it, or type how you know that this person may take the camera.");

public sealed record CarrierMissing() : Invalid("Carrier", "Carrier is empty: type who carries the parcel.");

public sealed record PassOnlyByOwner() : Conflict("Only the owner can let something missing pass: ask them, or do what is missing.");

public sealed record PassReasonMissing() : Invalid("Reason", "The reason is empty: write why this may be missing; it is kept.");

public sealed record PassNotNeeded(StillMissing Item) : Conflict($"{MissingWords.Of(Item)} is not missing, so there is nothing to let pass.");

public sealed record PassedAlready(StillMissing Item) : Conflict($"{MissingWords.Of(Item)} was let pass already.");

public sealed record PhotoNotFound() : NotFound("This photo is not in the book.");

public sealed record NoRoomForPhoto(string FileName)
    : Invalid("Photos", $"“{FileName}” could not be stored: the disk is full or can't be written to. Make room, then send it again.");

public sealed record NoPhotoChosen() : Invalid("Photos", "No photo was chosen: take or choose at least one.");
