using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Reminders;

/// <summary>All that is late, sorted by what can be done about it.</summary>
/// <param name="Due">A step is due: longest late first.</param>
/// <param name="OnHold">Nobody is reminded: a dispute, or a customer who is spoken to.</param>
/// <param name="Waiting">Late, but the next step is not due, or there is none.</param>
/// <param name="Sent">Newest first.</param>
/// <param name="IsCut">There are more late invoices than are shown.</param>
public sealed record ReminderDesk(
    IReadOnlyList<LateInvoice> Due, IReadOnlyList<LateInvoice> OnHold, IReadOnlyList<LateInvoice> Waiting, IReadOnlyList<LetterView> Sent, bool IsCut);

/// <summary>An invoice whose day has passed.</summary>
/// <param name="Email">Empty where the letter has to be printed.</param>
/// <param name="Why">Why no step is due; null where one is.</param>
public sealed record LateInvoice(
    Guid Id, string Number, string RepairNumber, Guid CustomerId, string Customer, string Email, string Currency, decimal Open, DateOnly Due, int DaysLate, int Sent, Failure? Why)
{
    public int Step { get; init; }

    /// <summary>Of the step that is due.</summary>
    public string Title { get; init; } = "";

    /// <summary>Told with it; 0 for none.</summary>
    public decimal Fee { get; init; }
}

/// <summary>A letter that went out.</summary>
public sealed record LetterView(
    Guid Id, Guid PaperId, string Number, Guid CustomerId, string Customer, string Title, DateOnly SentOn, DateOnly PayBy, string Currency, decimal Due, decimal Fee,
    IReadOnlyList<string> Invoices, bool ByMail, DateTimeOffset? PostedAt, string By);

/// <summary>The reminders of one invoice, and whether it is on hold.</summary>
/// <param name="HoldUntil">Null where it is not on hold.</param>
public sealed record InvoiceReminders(IReadOnlyList<InvoiceReminder> Sent, DateOnly? HoldUntil, string HoldReason)
{
    public static InvoiceReminders None { get; } = new([], null, "");
}

public sealed record InvoiceReminder(int Step, string Title, DateOnly SentOn, DateOnly PayBy, decimal Due, decimal Fee, Guid PaperId, string PaperNumber, string By);

/// <summary>What a ticked line of the page showed.</summary>
public sealed record TickedReminder(Guid InvoiceId, int Step);

/// <summary>A letter as it would go out now.</summary>
/// <param name="Facts">Without a number.</param>
/// <param name="Invoices">Those it names.</param>
/// <param name="Email">Empty where it has to be printed.</param>
public sealed record ReminderPreview(ReminderFacts Facts, IReadOnlyList<TickedReminder> Invoices, string Email);

/// <summary>What went out.</summary>
/// <param name="ToPrint">Those of customers without an address for mail.</param>
public sealed record SentLetters(int ByMail, IReadOnlyList<Guid> ToPrint);
