using static RepairShop.Services.Reports.FigureUnit;

namespace RepairShop.Services.Reports;

/// <summary>What lies in the drawers, what comes and goes, and how long it takes.</summary>
internal static class HouseFigures
{
    public static FigureDefinition Stock { get; } = new(
        "stock", "Stock value", "Parts on hand at what they had cost, first in first out, at the end of the month or today.", "Month", true,
        [new("At the end", Money, AddsUp: false, Bar: "at the end"), new("Came in", Money), new("Went out", Money)],
        FigureDefinition.Spans +
        """
        select s.key, s.key, null::text, null::uuid,
          (select coalesce(sum(l.amount), 0) from journal_lines l where l.account = 'Stock' and l.date < s.u and l.currency = @currency), m.came, m.went
        from s cross join lateral (select coalesce(sum(l.amount) filter (where l.amount > 0), 0) as came, coalesce(-sum(l.amount) filter (where l.amount < 0), 0) as went
          from journal_lines l where l.account = 'Stock' and l.date >= s.f and l.date < s.u and l.currency = @currency) m
        order by s.n
        """,
        [new("At the end", Money), new("Came in", Money), new("Went out", Money)],
        """
        select p.number, p.number || ' · ' || p.name, null::text, p.id, sum(l.amount),
          coalesce(sum(l.amount) filter (where l.amount > 0 and l.date >= @from), 0), coalesce(-sum(l.amount) filter (where l.amount < 0 and l.date >= @from), 0)
        from journal_lines l join journal_entries e on e.id = l.entry_id join stock_movements m on m.id = e.movement_id join parts p on p.id = m.part_id
        where l.account = 'Stock' and l.date < @until and l.currency = @currency
        group by p.id having sum(l.amount) <> 0 or max(l.date) >= @from order by sum(l.amount) desc, p.number limit @limit
        """);

    public static FigureDefinition InAndOut { get; } = new(
        "in-and-out", "Repairs in and out", "Booked in, gone home, and still in the house at the end of the month or today.", "Month", true,
        [new("In", Count, Bar: "in"), new("Out", Count, Bar: "out"), new("Still here", Count, AddsUp: false)],
        FigureDefinition.Spans +
        """
        , before as (select f, (select count(*) from repairs where booked_at < f) - (select count(*) from repairs where returned_at < f) as here from (select min(f_at) as f from s) as start)
        select s.key, s.key, null::text, null::uuid,
          (select count(*) from repairs where booked_at >= s.f_at and booked_at < s.u_at)::numeric,
          (select count(*) from repairs where returned_at >= s.f_at and returned_at < s.u_at)::numeric,
          (before.here + (select count(*) from repairs where booked_at >= before.f and booked_at < s.u_at) - (select count(*) from repairs where returned_at >= before.f and returned_at < s.u_at))::numeric
        from s cross join before order by s.n
        """,
        [new("In", Count), new("Out", Count)],
        $"""
        select {FigureDefinition.RepairRow}, (r.booked_at >= @from_at and r.booked_at < @until_at)::int::numeric,
          (r.returned_at is not null and r.returned_at >= @from_at and r.returned_at < @until_at)::int::numeric
        from repairs r join cameras c on c.id = r.camera_id join customers k on k.id = r.customer_id
        where (r.booked_at >= @from_at and r.booked_at < @until_at) or (r.returned_at >= @from_at and r.returned_at < @until_at)
        order by r.booked_at, r.number limit @limit
        """);

    private const string DaysHere = "(extract(epoch from r.returned_at - r.booked_at) / 86400)::numeric";

    public static FigureDefinition Turnaround { get; } = new(
        "turnaround", "Turnaround", "Days from booking in to going home, by the month it went home: half of the repairs took no longer than the median, nine of ten no longer than the last column.",
        "Month", true,
        [new("Repairs", Count), new("Median", Days, AddsUp: false, Bar: "median"), new("90 % within", Days, AddsUp: false, Bar: "90 %")],
        FigureDefinition.Spans +
        $"""
        select s.key, s.key, null::text, null::uuid, count(r.id)::numeric,
          (percentile_cont(0.5) within group (order by {DaysHere}))::numeric, (percentile_cont(0.9) within group (order by {DaysHere}))::numeric
        from s left join repairs r on r.returned_at >= s.f_at and r.returned_at < s.u_at group by s.key, s.n order by s.n
        """,
        [new("Days", Days, AddsUp: false)],
        $"""
        select {FigureDefinition.RepairRow}, {DaysHere}
        from repairs r join cameras c on c.id = r.camera_id join customers k on k.id = r.customer_id
        where r.returned_at >= @from_at and r.returned_at < @until_at order by r.returned_at - r.booked_at desc limit @limit
        """);
}
