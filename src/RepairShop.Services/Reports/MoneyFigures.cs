using static RepairShop.Services.Reports.FigureUnit;

namespace RepairShop.Services.Reports;

/// <summary>What was earned, what is due to the tax office, what customers owe.</summary>
internal static class MoneyFigures
{
    private const string RevenueAccounts = "('RevenueLabour', 'RevenueParts', 'RevenueOther')";

    private const string RevenueSums =
        """
        coalesce(-sum(l.amount) filter (where l.account = 'RevenueLabour'), 0), coalesce(-sum(l.amount) filter (where l.account = 'RevenueParts'), 0),
        coalesce(-sum(l.amount) filter (where l.account = 'RevenueOther'), 0), coalesce(-sum(l.amount), 0)
        """;

    private static readonly FigureColumn[] RevenueColumns =
        [new("Labour", Money, Bar: "labour"), new("Parts", Money, Bar: "parts"), new("Other", Money), new("Together", Money)];

    public static FigureDefinition Revenue { get; } = new(
        "revenue", "Revenue", "Without tax, by the day of issue, less what was credited.", "Month", true, RevenueColumns,
        FigureDefinition.Spans +
        $"""
        select s.key, s.key, null::text, null::uuid, {RevenueSums}
        from s left join journal_lines l on l.account in {RevenueAccounts} and l.date >= s.f and l.date < s.u and l.currency = @currency
        group by s.key, s.n order by s.n
        """,
        RevenueColumns,
        $"""
        select coalesce(i.number, p.number), coalesce(i.number, 'Fee of ' || p.number) || ' · ' || k.name, r.number, null::uuid, {RevenueSums}
        from journal_lines l join journal_entries e on e.id = l.entry_id left join invoices i on i.id = e.invoice_id left join repairs r on r.id = i.repair_id
          left join customer_credits c on c.id = e.credit_id left join reminder_letters f on f.id = c.reminder_letter_id left join papers p on p.id = f.paper_id
          join customers k on k.id = coalesce(i.customer_id, c.customer_id)
        where l.account in {RevenueAccounts} and l.date >= @from and l.date < @until and l.currency = @currency
        group by i.number, p.number, r.number, k.name order by min(e.number) limit @limit
        """);

    private static readonly FigureColumn[] TaxColumns =
        [new("Billed without tax", Money), new("Tax by day of issue", Money, Bar: "by issue"), new("Tax by day of payment", Money, Bar: "by payment")];

    // A payment carries the tax of its invoice in the proportion it pays of it; what was written off or set off is no payment.
    private const string TaxPaid =
        """
        from payments p join invoices i on i.id = p.invoice_id and i.gross + i.cash_rounding <> 0 and i.currency = @currency
          join journal_entries e on e.invoice_id = p.invoice_id and e.payment_id is null and e.source = 'Invoice'
          join journal_lines l on l.entry_id = e.id and l.account = 'Tax'
        """;

    private const string TaxLines = "l.account in ('Tax', 'RevenueLabour', 'RevenueParts', 'RevenueOther', 'Deposits') and l.tax_name <> '' and l.currency = @currency";

    public static FigureDefinition Tax { get; } = new(
        "tax", "Tax due by rate",
        "By day of issue (accrual) and by day of payment (cash). Which of them your tax office wants depends on your scheme: check your local rules.",
        "Rate", false, TaxColumns,
        $"""
        with due as (
          select l.tax_name, l.tax_percent, coalesce(-sum(l.amount) filter (where l.account <> 'Tax'), 0) as net, coalesce(-sum(l.amount) filter (where l.account = 'Tax'), 0) as tax
          from journal_lines l where {TaxLines} and l.date >= @from and l.date < @until group by 1, 2),
        paid as (
          select l.tax_name, l.tax_percent, sum(-l.amount * p.amount / (i.gross + i.cash_rounding)) as tax {TaxPaid} where p.paid_on >= @from and p.paid_on < @until group by 1, 2)
        select trim_scale(tax_percent) || '|' || tax_name, tax_name || ', ' || trim_scale(tax_percent) || ' %', null::text, null::uuid,
          coalesce(due.net, 0), coalesce(due.tax, 0), round(coalesce(paid.tax, 0), @digits)
        from due full join paid using (tax_name, tax_percent) order by tax_percent desc, tax_name
        """,
        [new("Billed without tax", Money), new("Tax by day of issue", Money), new("Tax by day of payment", Money)],
        $"""
        select * from (
          select i.number as key, i.number || ' · ' || k.name, r.number as repair, null::uuid,
            coalesce(-sum(l.amount) filter (where l.account <> 'Tax'), 0), coalesce(-sum(l.amount) filter (where l.account = 'Tax'), 0), 0::numeric
          from journal_lines l join journal_entries e on e.id = l.entry_id join invoices i on i.id = e.invoice_id
            join repairs r on r.id = i.repair_id join customers k on k.id = i.customer_id
          where {TaxLines} and l.date >= @from and l.date < @until and trim_scale(l.tax_percent) || '|' || l.tax_name = @row
          group by i.number, r.number, k.name
          union all
          select i.number, 'Payment of ' || i.number || ' · ' || k.name, r.number, null::uuid, 0::numeric, 0::numeric, sum(-l.amount * p.amount / (i.gross + i.cash_rounding))
          {TaxPaid} join repairs r on r.id = i.repair_id join customers k on k.id = i.customer_id
          where p.paid_on >= @from and p.paid_on < @until and trim_scale(l.tax_percent) || '|' || l.tax_name = @row
          group by i.number, p.id, r.number, k.name) as papers
        order by key limit @limit
        """);

    // Word for word the condition of the index ix_invoices_open.
    private const string Open = "i.kind = 'Invoice' and i.issued_at is not null and i.gross + i.cash_rounding - i.credited - i.paid - i.written_off <> 0 and i.currency = @currency";

    private const string Age =
        """
        case when i.gross + i.cash_rounding - i.credited - i.paid - i.written_off < 0 then 'back' when i.due_date >= @today then 'due'
          when @today - i.due_date <= 30 then '30' when @today - i.due_date <= 60 then '60' when @today - i.due_date <= 90 then '90' else 'old' end
        """;

    private static readonly FigureColumn[] UnpaidColumns = [new("Invoices", Count), new("Open", Money, Bar: "open")];

    public static FigureDefinition Unpaid { get; } = new(
        "unpaid", "Unpaid by age", "What customers owe today, whatever period is chosen.", "Age", false, UnpaidColumns,
        $"""
        select a.key, a.label, null::text, null::uuid, count(o.open)::numeric, coalesce(sum(o.open), 0)
        from (values (1, 'due', 'Not due yet'), (2, '30', '1 to 30 days late'), (3, '60', '31 to 60 days late'), (4, '90', '61 to 90 days late'),
          (5, 'old', 'More than 90 days'), (6, 'back', 'To be given back')) as a(n, key, label)
        left join (select {Age} as age, i.gross + i.cash_rounding - i.credited - i.paid - i.written_off as open from invoices i where {Open}) o on o.age = a.key
        group by a.n, a.key, a.label order by a.n
        """,
        [new("Days late", Days, AddsUp: false), new("Open", Money)],
        $"""
        select i.number, i.number || ' · ' || k.name, r.number, null::uuid, greatest(@today - i.due_date, 0)::numeric, i.gross + i.cash_rounding - i.credited - i.paid - i.written_off
        from invoices i join repairs r on r.id = i.repair_id join customers k on k.id = i.customer_id
        where {Open} and {Age} = @row order by i.due_date, i.number limit @limit
        """);
}
