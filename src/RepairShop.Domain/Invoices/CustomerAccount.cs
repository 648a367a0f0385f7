using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Invoices;

/// <summary>One thing that moved what a customer owes.</summary>
/// <param name="On">The day it counts for.</param>
/// <param name="At">When it was recorded: the order within a day.</param>
/// <param name="Kind">Null for what moves an invoice only and is not listed: a share of money paid at once, credit used.</param>
/// <param name="InvoiceId">The invoice it moves; null where none.</param>
/// <param name="Paper">Number of the paper it is about.</param>
/// <param name="Text"></param>
/// <param name="Amount">What it does to what the customer owes altogether: plus is more.</param>
/// <param name="OnInvoice">What it does to what is open on the invoice.</param>
public sealed record AccountEvent(
    DateOnly On, DateTimeOffset At, StatementLineKind? Kind, Guid? InvoiceId, string Paper, string Text, decimal Amount, decimal OnInvoice);

/// <summary>A customer's account in one currency.</summary>
public static class CustomerAccount
{
    /// <summary>What a statement over some days says. Whatever the days, what is open on invoices less credit and less what has to go
    /// back is the closing balance.</summary>
    /// <param name="events">All there ever were, in any order.</param>
    /// <param name="due">When each invoice is due; one that is not named, or has no day, is not late.</param>
    /// <param name="from">First day.</param>
    /// <param name="until">Last day.</param>
    public static AccountSpan Of(IReadOnlyCollection<AccountEvent> events, IReadOnlyDictionary<Guid, DateOnly?> due, DateOnly from, DateOnly until)
    {
        var opening = events.Where(one => one.On < from).Sum(one => one.Amount);
        var balance = opening;
        var lines = new List<StatementLineFacts>();
        foreach (var one in events.Where(one => one.Kind is not null && one.On >= from && one.On <= until).OrderBy(one => one.On).ThenBy(one => one.At))
        {
            balance += one.Amount;
            lines.Add(new StatementLineFacts(one.On, one.Kind!.Value, one.Paper, one.Text, one.Amount, balance));
        }
        var open = events.Where(one => one.InvoiceId is not null && one.On <= until).GroupBy(one => one.InvoiceId!.Value)
            .Select(group => (Due: due.GetValueOrDefault(group.Key), Open: group.Sum(one => one.OnInvoice))).ToList();
        var toGiveBack = -open.Where(invoice => invoice.Open < 0).Sum(invoice => invoice.Open);
        var ages = Ages(open.Where(invoice => invoice.Open > 0), until);
        return new AccountSpan(opening, lines, balance, ages, ages.Together - toGiveBack - balance, toGiveBack);
    }

    private static AgesFacts Ages(IEnumerable<(DateOnly? Due, decimal Open)> invoices, DateOnly day)
    {
        var byAge = invoices.ToLookup(invoice => invoice.Due is { } due ? (day.DayNumber - due.DayNumber) switch { <= 0 => 0, <= 30 => 1, <= 60 => 2, <= 90 => 3, _ => 4 } : 0, invoice => invoice.Open);
        return new AgesFacts(byAge[0].Sum(), byAge[1].Sum(), byAge[2].Sum(), byAge[3].Sum(), byAge[4].Sum());
    }
}

/// <summary>See <see cref="StatementFacts"/>, which freezes it.</summary>
public sealed record AccountSpan(
    decimal Opening, IReadOnlyList<StatementLineFacts> Lines, decimal Closing, AgesFacts Ages, decimal Credit, decimal ToGiveBack);

public sealed record StatementDaysWrong(DateOnly From, DateOnly Until)
    : Results.Invalid("Until", $"The last day, {Until.ToString("d", System.Globalization.CultureInfo.CurrentCulture)}, lies before the first, {From.ToString("d", System.Globalization.CultureInfo.CurrentCulture)}: choose a later one.");

public sealed record StatementInFuture(DateOnly Until)
    : Results.Invalid("Until", $"{Until.ToString("d", System.Globalization.CultureInfo.CurrentCulture)} lies in the future: a statement ends today or earlier.");
