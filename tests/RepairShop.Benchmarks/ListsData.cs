using Npgsql;

namespace RepairShop.Benchmarks;

/// <summary>A made-up book of any size: two repairs a camera, two cameras a customer, sixty cameras in the house whatever the
/// size, since a workshop's shelves do not grow with its years.</summary>
internal static class ListsData
{
    public const int Open = 60;

    public static async Task FillAsync(string connectionString, int repairs, CancellationToken cancel)
    {
        await using var source = new NpgsqlDataSourceBuilder(connectionString + ";Command Timeout=1800").Build();
        await using var command = source.CreateCommand(
            $"""
            -- In one long transaction the list of words is planned for while it is still empty: it must not be read whole for each row.
            set enable_seqscan = off;
            create temporary table syllables (n int, s text);
            insert into syllables select ordinality, s from unnest(array['ma','re','lo','ti','ven','dor','sal','qui','bra','nes','ull','ket','fa','gri','hon','jas','wil','pro','cud','zer']) with ordinality t(s, ordinality);
            create temporary table given as select row_number() over () as n, initcap(a.s || b.s) as s from syllables a, syllables b;
            create temporary table family as select row_number() over () as n, initcap(a.s || b.s || c.s) as s from syllables a, syllables b, syllables c;
            insert into customers (id, name, company, email, phone, tax_number, notes, created_at,
                address_city, address_country_code, address_postal_code, address_region, address_street, address_street2)
            select ('00000000-0000-4000-8000-' || lpad(to_hex(i), 12, '0'))::uuid,
              (select s from given where n = 1 + i % 400) || ' ' || (select s from family where n = 1 + (i * 7919) % 8000), '',
              'customer' || i || '@example.com', '+44 20 7946 ' || lpad((i % 10000)::text, 4, '0'), '', '', now(),
              (select s from family where n = 1 + (i * 31) % 300), 'GB', '', '', '', ''
            from generate_series(1, {Math.Max(1, repairs / 4)}) i;
            insert into cameras (id, owner_id, maker, model, variant, format, body_serial, lens, lens_serial, shutter_kind, shutter, shutter_serial, marked_speeds, notes, created_at)
            select ('00000000-0000-4000-9000-' || lpad(to_hex(i), 12, '0'))::uuid, ('00000000-0000-4000-8000-' || lpad(to_hex(1 + (i - 1) / 2), 12, '0'))::uuid,
              (select s from family where n = 1 + i % 40), (select s from given where n = 1 + (i * 13) % 300), '', '24 × 36',
              (100000 + (i * 48271::bigint) % 900000)::text, '', '', 'FocalPlane', '', '', '{"{}"}', '', now()
            from generate_series(1, {Math.Max(1, repairs / 2)}) i;
            insert into repairs (id, number, customer_id, camera_id, booked_at, booked_by, complaint, came_with, condition_on_receipt, arrived_how, arrival_tracking,
              consent_by, shelf, returned_at, returned_to, carrier, return_tracking, advice, left_alone, parts_returned)
            select ('00000000-0000-4000-a000-' || lpad(to_hex(i), 12, '0'))::uuid, 'B-' || lpad(i::text, 6, '0'), c.owner_id, c.id,
              now() - ({repairs} - i) * interval '1 hour', '00000000-0000-4000-8000-000000000000', 'Slow speeds hang', '{"{}"}', '', 'BroughtIn', '',
              'x', 'A1', case when i <= {repairs - Open} then now() - ({repairs} - i) * interval '1 hour' + interval '30 minutes' end, '', '', '', '', '', ''
            from generate_series(1, {repairs}) i
            join cameras c on c.id = ('00000000-0000-4000-9000-' || lpad(to_hex(1 + (i - 1) / 2), 12, '0'))::uuid;
            reset enable_seqscan;
            analyze;
            """);
        command.CommandTimeout = 1800;
        await command.ExecuteNonQueryAsync(cancel);
    }
}
