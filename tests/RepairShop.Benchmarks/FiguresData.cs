using Npgsql;

namespace RepairShop.Benchmarks;

/// <summary>An invoice for every repair of <see cref="ListsData"/>, nineteen of twenty paid, each with its journal.</summary>
internal static class FiguresData
{
    public static async Task FillAsync(string connectionString, CancellationToken cancel)
    {
        await using var source = new NpgsqlDataSourceBuilder(connectionString + ";Command Timeout=1800").Build();
        await using var command = source.CreateCommand(
            """
            -- Rows of this book balance by the way they are made; the triggers would only repeat it, row by row.
            set session_replication_role = replica;
            update shop set currency = 'EUR', tax_registered = true, time_zone = 'UTC';
            create temporary table billed as
              select r.id as repair, r.customer_id as customer, row_number() over (order by r.number) as n, (r.booked_at at time zone 'UTC')::date as day,
                60 * (1 + row_number() over (order by r.number) % 5)::numeric as labour, (row_number() over (order by r.number) % 40)::numeric + 0.5 as parts
              from repairs r;
            insert into invoices (id, repair_id, customer_id, kind, basis, number, created_at, created_by, issued_at, issued_by, issue_date, supply_date, due_date,
                currency, tax_registered, prices_include_tax, note, net, tax, gross, paid)
              select repair, repair, customer, 'Invoice', 'AsWorked', 'I-' || n, day, repair, day, repair, day, day, day + 14, 'EUR', true, false, '',
                labour + parts, 0.2 * (labour + parts), 1.2 * (labour + parts), case when n % 20 = 0 then 0 else 1.2 * (labour + parts) end from billed;
            insert into invoice_lines (id, invoice_id, position, kind, text, quantity, unit, unit_price, tax_name, tax_percent)
              select gen_random_uuid(), repair, 1, 'Labour', 'Clean and adjust shutter', labour / 60, 'h', 60, 'Standard', 20 from billed union all
              select gen_random_uuid(), repair, 2, 'Part', 'Cell spring', 1, 'pc', parts, 'Standard', 20 from billed;
            insert into invoice_taxes (id, invoice_id, category, name, percent, base, tax, reason)
              select gen_random_uuid(), repair, 'Standard', 'Standard', 20, labour + parts, 0.2 * (labour + parts), '' from billed;
            insert into payments (id, invoice_id, amount, method, reference, paid_on, recorded_at, recorded_by, form_key)
              select gen_random_uuid(), repair, 1.2 * (labour + parts), 'BankTransfer', '', day + 10, day + 10, repair, gen_random_uuid() from billed where n % 20 <> 0;
            insert into journal_entries (id, date, source, currency, invoice_id, line_count, posted_at, posted_by)
              select repair, day, 'Invoice', 'EUR', repair, 4, day, repair from billed order by n;
            insert into journal_lines (id, entry_id, date, currency, position, account, amount, tax_name, tax_percent)
              select gen_random_uuid(), b.repair, b.day, 'EUR', l.position, l.account, l.amount, l.name, l.percent
              from billed b cross join lateral (values (1, 'Receivables', 1.2 * (labour + parts), '', 0), (2, 'RevenueLabour', -labour, 'Standard', 20),
                (3, 'RevenueParts', -parts, 'Standard', 20), (4, 'Tax', -0.2 * (labour + parts), 'Standard', 20)) as l(position, account, amount, name, percent);
            insert into journal_entries (id, date, source, currency, invoice_id, payment_id, line_count, posted_at, posted_by)
              select id, paid_on, 'Payment', 'EUR', invoice_id, id, 2, recorded_at, recorded_by from payments;
            insert into journal_lines (id, entry_id, date, currency, position, account, amount, tax_name, tax_percent)
              select gen_random_uuid(), p.id, p.paid_on, 'EUR', l.position, l.account, l.amount, '', 0
              from payments p cross join lateral (values (1, 'Bank', p.amount), (2, 'Receivables', -p.amount)) as l(position, account, amount);
            reset session_replication_role;
            analyze;
            """);
        command.CommandTimeout = 1800;
        await command.ExecuteNonQueryAsync(cancel);
    }
}
