using RepairShop.Domain.Results;
using RepairShop.Services.Reminders;

namespace RepairShop.Services.Demo;

/// <summary>Four invoices nobody has paid in time: two had their first reminder, one is in dispute, one waits to be reminded of.</summary>
internal static class DemoReminders
{
    public static async Task AddAsync(DemoBook book, DateTimeOffset today)
    {
        var after = book.Now;
        book.SetClock(today.AddDays(-3));
        var desk = await book.DoAsync<ReminderListService, ReminderDesk>("counter", async list => (Result<ReminderDesk>)await list.DeskAsync(book.Cancel));
        foreach (var late in desk.Due.Take(2))
            await book.DoAsync<ReminderSendService, SentLetters>("counter", sender => sender.SendAsync([new TickedReminder(late.Id, late.Step)], book.Cancel));
        await book.DoAsync<ReminderHoldService>("owner", holds => holds.HoldAsync(
            desk.Due[2].Id, DateOnly.FromDateTime(today.UtcDateTime).AddDays(18), "Says the shutter sticks again in the cold; comes by to show it", book.Cancel));
        book.SetClock(after);
    }
}
