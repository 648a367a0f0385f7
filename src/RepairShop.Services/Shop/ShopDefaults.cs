using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Post;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Shop;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;
using RepairShop.Services.StripDown;

namespace RepairShop.Services.Shop;

/// <summary>What a new book starts with. All of it can be changed in settings.</summary>
public static class ShopDefaults
{
    /// <summary>Common practice: what a repairer tries before taking anything apart.</summary>
    private static readonly (string Name, string Unit)[] Checks =
    [
        ("Focus at infinity", ""), ("Focusing movement", ""), ("Rangefinder at infinity", ""), ("Rangefinder at near distance", ""),
        ("Film transport", ""), ("Frame counter", ""), ("Double-exposure lock", ""), ("Shutter release", ""),
        ("Self-timer run", "s"), ("Flash contact X", ""), ("Flash contact M", ""), ("Aperture blades and clicks", ""),
        ("Lens glass", ""), ("Viewfinder", ""), ("Light meter", ""), ("Light-tightness", ""), ("Back lock and hinge", ""),
    ];

    private static readonly (MailKind Kind, string Subject, string Body)[] Texts =
    [
        (MailKind.BookedIn, "Your {camera} is booked in: {number}",
            "Dear {customer},\n\nyour {camera} has arrived and is booked in under number {number}. The claim tag is attached: please keep it, we ask for it when you collect the camera.\n\nKind regards\n{shop}"),
        (MailKind.Estimate, "Estimate for your {camera}, repair {number}",
            "Dear {customer},\n\nplease find attached our estimate for your {camera}. It comes to between {low} and {high} and stands until {valid}.\n\n{answer}\n\nKind regards\n{shop}"),
        (MailKind.ServiceRecord, "Service record of your {camera}, repair {number}",
            "Dear {customer},\n\nattached is the service record of your {camera}: what was found, what was done, and what it measured before and after.\n\nKind regards\n{shop}"),
        (MailKind.Invoice, "Invoice {paper} for your {camera}",
            "Dear {customer},\n\nattached is invoice {paper} over {total} for the repair of your {camera}, due on {due}.\n\nKind regards\n{shop}"),
        (MailKind.CreditNote, "Credit note {paper}",
            "Dear {customer},\n\nattached is credit note {paper} over {total}.\n\nKind regards\n{shop}"),
        (MailKind.Statement, "Statement {paper}",
            "Dear {customer},\n\nattached is a statement of your account from {from} to {until}. At its end it comes to {total}.\n\nKind regards\n{shop}"),
        (MailKind.Reminder, "{title}: {paper}",
            "Dear {customer},\n\nplease find attached our letter {paper} about invoices that are past their day. It comes to {total}, to be paid by {due}. If your payment has crossed this letter, please disregard it.\n\nKind regards\n{shop}"),
        (MailKind.Ready, "Your {camera} is ready, repair {number}",
            "Dear {customer},\n\nyour {camera} is ready to go home. Please bring the claim tag when you collect it, or tell us where to post it.\n\nKind regards\n{shop}"),
    ];

    /// <summary>Common practice: first friendly, then plain, then the last. No fee until the owner writes one and turns fees on.</summary>
    private static ReminderStep[] Reminders =>
    [
        new()
        {
            Number = 1, DaysAfterDue = 7, DaysToPay = 10, Title = "Friendly note",
            Text = "Dear {customer},\n\nperhaps it has slipped your mind: we have not yet seen the payment of what is listed below. Please transfer {total} by {due}.\n\nIf something is wrong with the bill or with the camera, tell us, and we will put it right.",
        },
        new()
        {
            Number = 2, DaysAfterDue = 21, DaysToPay = 10, Title = "Second reminder",
            Text = "Dear {customer},\n\nwe wrote to you before and have still not seen your payment of what is listed below. Please transfer {total} by {due}, or tell us what stands in the way.",
        },
        new()
        {
            Number = 3, DaysAfterDue = 35, DaysToPay = 7, Title = "Last reminder",
            Text = "Dear {customer},\n\nin spite of our earlier letters what is listed below is still unpaid. Please transfer {total} by {due}. After that day we have to take further steps; a call before then may spare us both.",
        },
    ];

    /// <summary>Adds what is missing; never changes what is there. Safe to run at every start.</summary>
    public static async Task EnsureAsync(ShopDb db, CancellationToken cancel)
    {
        if (!await db.Shop.AnyAsync(cancel))
        {
            db.Shop.Add(new ShopSettings
            {
                LimitProvenance =
                    "The workshop's own limits, after the values a secondary source quotes for JIS B 7091: targets for good results, not inspection limits.",
                ConditionsText =
                    "Taking an old camera apart may not be reversible, and parts that look sound may fail when they are moved. "
                    + "We ask before going above the approved amount. Please collect the camera within three months of our message that it is ready.",
                PaymentText = "Please give the invoice number with your payment.",
            });
            db.CheckItems.AddRange(Checks.Select((check, index) => new CheckItem { Name = check.Name, Unit = check.Unit, Position = index + 1 }));
        }
        if (!await db.CleaningWays.AnyAsync(cancel))
        {
            db.CleaningWays.AddRange(CleaningListService.Defaults.Select(
                (way, index) => new CleaningWay { Name = way.Name, Cautions = way.Cautions, Position = index + 1 }));
        }
        if (!await db.ReminderSteps.AnyAsync(cancel))
            db.ReminderSteps.AddRange(Reminders);
        var known = await db.MailTexts.Select(text => text.Kind).ToListAsync(cancel);
        db.MailTexts.AddRange(Texts
            .Where(text => !known.Contains(text.Kind))
            .Select(text => new MailText { Kind = text.Kind, Subject = text.Subject, Body = text.Body }));
        await db.SaveChangesAsync(cancel);
    }
}
