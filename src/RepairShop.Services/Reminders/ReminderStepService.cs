using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Post;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reminders;

/// <summary>The owner's steps, and whether they ask for fees.</summary>
public sealed record ReminderPlan(IReadOnlyList<ReminderStep> Steps, bool AsksFees, string Currency, uint ShopVersion);

/// <summary>Reminder steps in the settings. What was sent keeps its own words and days.</summary>
public sealed class ReminderStepService(ShopDb db, ShopFace face)
{
    public async Task<ReminderPlan> PlanAsync(CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        return new ReminderPlan(await db.ReminderSteps.AsNoTracking().OrderBy(row => row.Number).ToListAsync(cancel), shop.ReminderFees, shop.Currency, shop.Version);
    }

    public async Task<Result<ReminderStep>> FindAsync(int number, CancellationToken cancel) =>
        await db.ReminderSteps.AsNoTracking().SingleOrDefaultAsync(row => row.Number == number, cancel) is { } step ? step : new ReminderStepUnknown();

    public async Task<Result> SaveAsync(ReminderStep typed, CancellationToken cancel)
    {
        var steps = await db.ReminderSteps.ToListAsync(cancel);
        if (steps.SingleOrDefault(row => row.Number == typed.Number) is not { } stored)
            return new ReminderStepUnknown();
        if (ReminderRules.MayKeep(typed, steps, face.Currency) is { IsDone: false } refused)
            return refused;
        if (MailTextService.FirstUnknown(MailKind.Reminder, nameof(typed.Text), typed.Text) is { } unknown)
            return unknown;
        (stored.Title, stored.Text) = (TypedText.OneLine(typed.Title), typed.Text.ReplaceLineEndings("\n").Trim());
        (stored.DaysAfterDue, stored.DaysToPay, stored.Fee) = (typed.DaysAfterDue, typed.DaysToPay, typed.Fee);
        db.Entry(stored).Property(row => row.Version).OriginalValue = typed.Version;
        return await db.SaveAsync(cancel);
    }

    /// <summary>Another last step, two weeks after the one before, to be put into the owner's words.</summary>
    public async Task<Result<int>> AddAsync(CancellationToken cancel)
    {
        var last = await db.ReminderSteps.AsNoTracking().OrderByDescending(row => row.Number).FirstAsync(cancel);
        if (last.Number >= ReminderRules.MostSteps)
            return new ReminderStepsFull(ReminderRules.MostSteps);
        var step = new ReminderStep
        {
            Number = last.Number + 1,
            DaysAfterDue = last.DaysAfterDue + 14,
            Title = last.Title,
            Text = last.Text,
            DaysToPay = last.DaysToPay,
        };
        db.ReminderSteps.Add(step);
        return await db.SaveAsync(cancel) is { IsDone: false } unsaved ? unsaved.Failure : step.Number;
    }

    public async Task<Result> RemoveLastAsync(CancellationToken cancel)
    {
        var steps = await db.ReminderSteps.OrderBy(row => row.Number).ToListAsync(cancel);
        if (steps.Count <= 1)
            return new LastReminderStepStays();
        db.ReminderSteps.Remove(steps[^1]);
        return await db.SaveAsync(cancel);
    }

    public async Task<Result> AskFeesAsync(bool asks, uint version, CancellationToken cancel)
    {
        var shop = await db.Shop.SingleAsync(cancel);
        shop.ReminderFees = asks;
        db.Entry(shop).Property(row => row.Version).OriginalValue = version;
        return await db.SaveAsync(cancel);
    }

    /// <summary>What a customer would read, with invented values.</summary>
    public Result<string> Preview(ReminderStep typed) =>
        MailTextService.FirstUnknown(MailKind.Reminder, nameof(typed.Text), typed.Text) is { } unknown
            ? unknown
            : MailTemplate.Fill(typed.Text, new Dictionary<string, string>(MailTextService.Sample(face))
            {
                ["paper"] = $"R-{face.Today.Year}-0007",
                ["title"] = typed.Title,
                ["due"] = face.Date(face.Today.AddDays(typed.DaysToPay)),
            });
}
