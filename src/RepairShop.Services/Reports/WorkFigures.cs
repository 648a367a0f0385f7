using static RepairShop.Services.Reports.FigureUnit;

namespace RepairShop.Services.Reports;

/// <summary>Hours, offers held against what it took, and what a repair leaves over.</summary>
internal static class WorkFigures
{
    private const string Minutes = "coalesce(sum(w.minutes), 0) / 60.0";

    private const string SoldHours = "coalesce(sum(case i.kind when 'CreditNote' then -q.quantity else q.quantity end), 0)";

    private const string SoldLines = "from invoices i join invoice_lines q on q.invoice_id = i.id and q.kind = 'Labour' and q.unit = 'h'";

    private static readonly FigureColumn[] HoursColumns =
        [new("Worked", Hours, Bar: "worked"), new("of it billable", Hours), new("Sold", Hours, Bar: "sold"), new("Sold of worked", Percent, AddsUp: false)];

    public static FigureDefinition HoursSold { get; } = new(
        "hours", "Hours sold against hours worked", "Sold is what invoices charge by the hour, by the day of issue; worked is what the clock and the list say, by the day.",
        "Month", true, HoursColumns,
        FigureDefinition.Spans +
        $"""
        select s.key, s.key, null::text, null::uuid, d.worked, d.billable, b.sold, case when d.worked > 0 then 100 * b.sold / d.worked end
        from s
        cross join lateral (select {Minutes} as worked, coalesce(sum(w.minutes) filter (where w.billable), 0) / 60.0 as billable
          from labour_entries w where w.removed_at is null and w.work_date >= s.f and w.work_date < s.u) d
        cross join lateral (select {SoldHours} as sold {SoldLines} where i.issued_at is not null and i.issue_date >= s.f and i.issue_date < s.u) b
        order by s.n
        """,
        [new("Worked", Hours), new("of it billable", Hours), new("Sold", Hours)],
        $"""
        with worked as (select w.repair_id, {Minutes} as worked, coalesce(sum(w.minutes) filter (where w.billable), 0) / 60.0 as billable
          from labour_entries w where w.removed_at is null and w.work_date >= @from and w.work_date < @until group by 1),
        sold as (select i.repair_id, {SoldHours} as sold {SoldLines} where i.issued_at is not null and i.issue_date >= @from and i.issue_date < @until group by 1)
        select {FigureDefinition.RepairRow}, coalesce(worked.worked, 0), coalesce(worked.billable, 0), coalesce(sold.sold, 0)
        from worked full join sold using (repair_id) join repairs r on r.id = repair_id join cameras c on c.id = r.camera_id join customers k on k.id = r.customer_id
        order by r.number limit @limit
        """);

    private const string Offered =
        """
        from repairs r join cameras c on c.id = r.camera_id join customers k on k.id = r.customer_id
          join lateral (select e.id from estimates e where e.repair_id = r.id and e.answer = 'Approved' order by e.revision desc limit 1) e on true
          join lateral (select sum(q.low_quantity) as low, sum(q.high_quantity) as high from estimate_lines q where q.estimate_id = e.id and q.kind = 'Labour' and q.unit = 'h') q on q.high > 0
          join lateral (select coalesce(sum(w.minutes), 0) / 60.0 as worked from labour_entries w where w.repair_id = r.id and w.removed_at is null) w on true
        where r.returned_at >= @from_at and r.returned_at < @until_at
        """;

    private const string Model = "concat_ws(' ', c.maker, c.model)";

    public static FigureDefinition Estimates { get; } = new(
        "estimates", "Estimate against actual, by model",
        "Hours of the approved estimate and hours worked, on average, for cameras that went home in this time. Against the middle of the range: 100 % is spot on.",
        "Model", false,
        [
            new("Repairs", Count), new("Estimated from", Hours, AddsUp: false), new("to", Hours, AddsUp: false, Bar: "estimated at most"),
            new("Worked", Hours, AddsUp: false, Bar: "worked"), new("Worked of estimated", Percent, AddsUp: false),
        ],
        $"""
        select {Model}, {Model}, null::text, null::uuid, count(*)::numeric, avg(q.low), avg(q.high), avg(w.worked), 200 * sum(w.worked) / sum(q.low + q.high)
        {Offered} group by 1 order by count(*) desc, 1 limit @limit
        """,
        [new("Estimated from", Hours), new("to", Hours), new("Worked", Hours), new("Worked of estimated", Percent, AddsUp: false)],
        $"""
        select {FigureDefinition.RepairRow}, q.low, q.high, w.worked, 200 * w.worked / (q.low + q.high)
        {Offered} and {Model} = @row order by r.returned_at limit @limit
        """);

    public static FigureDefinition Margin { get; } = new(
        "margin", "Margin per repair",
        "What was billed in this time without tax, less what the parts had cost, whenever they were fitted. The smallest first. Your own time is not a cost here: the last column says what an hour of it brought.",
        "Repair", false,
        [new("Billed", Money), new("Parts", Money), new("Margin", Money, Bar: "margin"), new("Worked", Hours), new("Margin an hour", Money, AddsUp: false)],
        $"""
        with billed as (
          select i.repair_id, -sum(l.amount) as net from journal_lines l join journal_entries e on e.id = l.entry_id join invoices i on i.id = e.invoice_id
          where l.account in ('RevenueLabour', 'RevenueParts', 'RevenueOther') and l.date >= @from and l.date < @until and l.currency = @currency group by 1)
        select {FigureDefinition.RepairRow}, b.net, p.cost, b.net - p.cost, w.worked, case when w.worked > 0 then round((b.net - p.cost) / w.worked, @digits) end
        from billed b join repairs r on r.id = b.repair_id join cameras c on c.id = r.camera_id join customers k on k.id = r.customer_id
        cross join lateral (
          select coalesce((select sum(t.value) from part_uses u join stock_movements m on m.part_use_id = u.id join stock_takings t on t.movement_id = m.id where u.repair_id = r.id), 0)
            + coalesce((select round(sum(u.quantity * u.unit_cost), @digits) from part_uses u where u.repair_id = r.id and u.part_id is null and u.removed_at is null), 0) as cost) p
        cross join lateral (select coalesce(sum(w.minutes), 0) / 60.0 as worked from labour_entries w where w.repair_id = r.id and w.removed_at is null) w
        order by b.net - p.cost, r.number limit @limit
        """,
        [], null);
}
