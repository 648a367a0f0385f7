using Npgsql;
using NpgsqlTypes;
using RepairShop.Services.Files;

namespace RepairShop.Benchmarks;

/// <summary>What the program wrote for one invoice, row by row as JSON, and the bytes of its files.</summary>
internal sealed record WrittenRows(Guid Invoice, string InvoiceRow, string Taxes, string Papers, string Entries, string Lines, string Audit, IReadOnlyList<byte[]> Files);

/// <summary>Puts the rows another book got into an equal book, in one transaction an invoice, with all of its triggers awake.</summary>
internal sealed class IssuingByHand(NpgsqlDataSource from, NpgsqlDataSource into, FileStore fromFiles, FileStore intoFiles)
{
    private long auditSeen;

    public async Task BeginAsync(CancellationToken cancel) =>
        auditSeen = (long)(await ScalarAsync(from, "select coalesce(max(id), 0) from audit", cancel))!;

    public async Task<WrittenRows> ReadAsync(Guid invoice, CancellationToken cancel)
    {
        await using var command = from.CreateCommand(
            """
            select (select to_jsonb(i)::text from invoices i where id = $1),
              (select coalesce(jsonb_agg(t), '[]')::text from invoice_taxes t where invoice_id = $1),
              (select coalesce(jsonb_agg(p), '[]')::text from papers p where invoice_id = $1),
              (select coalesce(jsonb_agg(e), '[]')::text from journal_entries e where invoice_id = $1),
              (select coalesce(jsonb_agg(l), '[]')::text from journal_lines l join journal_entries e on e.id = l.entry_id where e.invoice_id = $1),
              (select coalesce(jsonb_agg(a order by a.id), '[]')::text from audit a where a.id > $2),
              (select coalesce(max(id), $2) from audit),
              (select array_agg(file_hash) || array_agg(e_invoice_hash) from papers where invoice_id = $1)
            """);
        command.Parameters.Add(new() { Value = invoice });
        command.Parameters.Add(new() { Value = auditSeen });
        await using var reader = await command.ExecuteReaderAsync(cancel);
        await reader.ReadAsync(cancel);
        auditSeen = reader.GetInt64(6);
        var files = new List<byte[]>();
        foreach (var hash in reader.GetFieldValue<string[]>(7).Where(hash => hash.Length > 0))
            files.Add(await fromFiles.ReadAsync(hash, cancel));
        return new WrittenRows(
            invoice, reader.GetString(0), reader.GetString(1), reader.GetString(2), reader.GetString(3), reader.GetString(4), reader.GetString(5), files);
    }

    public async Task WriteAsync(WrittenRows rows, CancellationToken cancel)
    {
        await using var connection = await into.OpenConnectionAsync(cancel);
        await using var work = await connection.BeginTransactionAsync(cancel);
        await using var batch = new NpgsqlBatch(connection, work);
        Add(batch, "select id from repairs where id = (select repair_id from invoices where id = $1) for update", new() { Value = rows.Invoice });
        Add(batch, "insert into invoice_taxes select * from jsonb_populate_recordset(null::invoice_taxes, $1)", Json(rows.Taxes));
        Add(batch,
            """
            insert into number_series (key, last_number) values ($1, 1)
            on conflict (key) do update set last_number = number_series.last_number + 1 returning last_number
            """, new() { Value = $"invoice:{DateTime.UtcNow.Year}" });
        Add(batch,
            """
            update invoices i set number = j.number, issued_at = j.issued_at, issued_by = j.issued_by, issue_date = j.issue_date,
              supply_date = j.supply_date, due_date = j.due_date, net = j.net, tax = j.tax, gross = j.gross
            from jsonb_populate_record(null::invoices, $1) j where i.id = j.id
            """, Json(rows.InvoiceRow));
        Add(batch, "insert into papers select * from jsonb_populate_recordset(null::papers, $1)", Json(rows.Papers));
        Add(batch, "insert into journal_entries overriding system value select * from jsonb_populate_recordset(null::journal_entries, $1)", Json(rows.Entries));
        Add(batch, "insert into journal_lines select * from jsonb_populate_recordset(null::journal_lines, $1)", Json(rows.Lines));
        Add(batch, "insert into audit overriding system value select * from jsonb_populate_recordset(null::audit, $1)", Json(rows.Audit));
        await batch.ExecuteNonQueryAsync(cancel);
        foreach (var file in rows.Files)
            await intoFiles.PutAsync(file, cancel);
        await work.CommitAsync(cancel);
    }

    /// <exception cref="InvalidOperationException">The two books are not the same: then nothing was compared.</exception>
    public async Task CompareAsync(CancellationToken cancel)
    {
        foreach (var table in new[] { "invoices", "invoice_taxes", "papers", "journal_entries", "journal_lines" })
        {
            var count = $"select count(*) || ' rows ' || md5(string_agg(t::text, '|' order by id)) from {table} t";
            var (ours, hand) = (await ScalarAsync(from, Told(table, count), cancel), await ScalarAsync(into, Told(table, count), cancel));
            Console.WriteLine($"{table}: {ours} and {hand}");
            if (!Equals(ours, hand))
                throw new InvalidOperationException($"The books differ in {table}.");
        }
    }

    // Drafts were made a moment apart; only what issuing wrote is to be the same.
    private static string Told(string table, string count) => table == "invoices"
        ? "select count(*) || ' rows ' || md5(string_agg(concat_ws('|', number, issued_at, issue_date, due_date, net, tax, gross), '|' order by id)) from invoices"
        : count;

    private static async Task<object?> ScalarAsync(NpgsqlDataSource source, string sql, CancellationToken cancel)
    {
        await using var command = source.CreateCommand(sql);
        return await command.ExecuteScalarAsync(cancel);
    }

    private static NpgsqlParameter Json(string text) => new() { Value = text, NpgsqlDbType = NpgsqlDbType.Jsonb };

    private static void Add(NpgsqlBatch batch, string sql, NpgsqlParameter parameter)
    {
        var command = new NpgsqlBatchCommand(sql);
        command.Parameters.Add(parameter);
        batch.BatchCommands.Add(command);
    }
}
