using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;

namespace RepairShop.Services.Banking;

/// <summary>One line and what somebody has ticked for it.</summary>
/// <param name="FormKey">The same form sent twice books once.</param>
public sealed record TypedBooking(Guid LineId, BookingChoice Choice, Guid FormKey);

/// <param name="Line">Null where there is no such line.</param>
/// <param name="Refused">Null where it is booked.</param>
public sealed record BookingOutcome(BankLine? Line, Failure? Refused);

/// <summary>Makes receipts of a bank's lines, each by a person's click, and puts lines aside. The receipt is the ordinary one: journal,
/// credit and locks are its own.</summary>
public sealed class BankBookingService(ShopDb db, ReceiptService receipts, CurrentPerson person, IServiceScopeFactory scopes, TimeProvider clock)
{
    /// <summary>Each line for itself: one that is refused does not hold up the others.</summary>
    public async Task<IReadOnlyList<BookingOutcome>> BookAsync(IEnumerable<TypedBooking> bookings, CancellationToken cancel)
    {
        var outcomes = new List<BookingOutcome>();
        foreach (var booking in bookings)
        {
            // A context whose save was refused is not used again.
            await using var scope = scopes.CreateAsyncScope();
            scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(person.RequiredId, person.Name, person.IsOwner);
            outcomes.Add(await scope.ServiceProvider.GetRequiredService<BankBookingService>().OneAsync(booking, cancel));
        }

        return outcomes;
    }

    /// <summary>Undoes the booking by taking its receipt back; the line waits again.</summary>
    public async Task<Result> UndoAsync(Guid lineId, Guid receiptId, Guid formKey, CancellationToken cancel)
    {
        var customer = await db.Receipts.Where(row => row.Id == receiptId && row.BankLineId == lineId).Select(row => (Guid?)row.CustomerId).SingleOrDefaultAsync(cancel);
        return customer is { } whose ? await receipts.TakeBackAsync(whose, receiptId, formKey, cancel) : new BankLineNotFound();
    }

    public async Task<Result> SetAsideAsync(Guid lineId, string reason, CancellationToken cancel)
    {
        if (await db.BankLines.AsNoTracking().SingleOrDefaultAsync(row => row.Id == lineId, cancel) is not { } line)
            return new BankLineNotFound();
        if (line.Bar != BankLineBar.None)
            return new BankLineBarred(line.Bar);
        if (await BankBook.BookedAsync(db, lineId, cancel))
            return new BankLineBooked();
        if (string.IsNullOrWhiteSpace(reason))
            return new SetAsideReasonMissing();
        return await NoteAsync(lineId, reason.Trim(), isAside: true, cancel);
    }

    public async Task<Result> TakeUpAsync(Guid lineId, CancellationToken cancel) =>
        await db.BankLines.AnyAsync(row => row.Id == lineId, cancel) ? await NoteAsync(lineId, "", isAside: false, cancel) : new BankLineNotFound();

    private async Task<BookingOutcome> OneAsync(TypedBooking booking, CancellationToken cancel)
    {
        if (await db.BankLines.AsNoTracking().SingleOrDefaultAsync(row => row.Id == booking.LineId, cancel) is not { } line)
            return new BookingOutcome(null, new BankLineNotFound());
        if (line.Bar != BankLineBar.None)
            return new BookingOutcome(line, new BankLineBarred(line.Bar));
        var words = new[] { line.Text, line.Reference, line.EndToEndId, line.Name, line.BankReference }.FirstOrDefault(text => text.Length > 0) ?? "";
        var typed = new TypedReceipt(line.Amount, PaymentMethod.BankTransfer, StatementParts.Text(words, 200), line.BookedOn, booking.Choice.Shares, KeepsRest: true, booking.FormKey)
        {
            Currency = line.Currency,
            BankLineId = line.Id,
        };
        var failure = (await receipts.ReceiveAsync(booking.Choice.Customer, typed, cancel)).Failure;
        return new BookingOutcome(line, failure is MonthIsClosed ? new BankLineInClosedMonth(line.BookedOn) : failure);
    }

    private async Task<Result> NoteAsync(Guid lineId, string reason, bool isAside, CancellationToken cancel)
    {
        var last = await db.BankLineNotes.Where(note => note.LineId == lineId).MaxAsync(note => (int?)note.Number, cancel) ?? 0;
        if (last % 2 == 1 == isAside)
            return new BankLineMoved();
        db.BankLineNotes.Add(new BankLineNote { LineId = lineId, Number = last + 1, Reason = reason, At = clock.GetUtcNow(), By = person.RequiredId });
        return await db.SaveAsync(cancel, BankBook.Refusals);
    }
}
