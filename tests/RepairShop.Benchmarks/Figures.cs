using System.Diagnostics;
using Npgsql;
using RepairShop.Services;
using RepairShop.Services.Database;
using RepairShop.Services.Reports;
using RepairShop.Services.Shop;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>The owner's figures of a year in a book of 200,000 invoices, with chart, against SQL written by hand for the same answer,
/// straight from the invoices and payments. Both must say the same, or nothing is compared.</summary>
internal static class Figures
{
    private const int Repairs = 200_000;
    private const int Runs = 5;
    private const int RoundCount = 9;

    private static readonly (string Key, string ByHand)[] Questions =
    [
        ("revenue",
            """
            select to_char(i.issue_date, 'YYYY-MM'), sum(l.quantity * l.unit_price) filter (where l.kind = 'Labour'), sum(l.quantity * l.unit_price) filter (where l.kind = 'Part')
            from invoices i join invoice_lines l on l.invoice_id = i.id where i.issue_date >= $1 and i.issue_date < $2 group by 1 order by 1
            """),
        ("tax",
            """
            with due as (select t.name, t.percent, sum(t.base) as net, sum(t.tax) as tax from invoice_taxes t join invoices i on i.id = t.invoice_id
                where i.issue_date >= $1 and i.issue_date < $2 group by 1, 2),
              paid as (select t.name, t.percent, sum(t.tax * p.amount / i.gross) as tax from payments p join invoices i on i.id = p.invoice_id join invoice_taxes t on t.invoice_id = i.id
                where p.paid_on >= $1 and p.paid_on < $2 group by 1, 2)
            select name, net, due.tax, round(paid.tax, 2) from due join paid using (name, percent) order by percent desc
            """),
        ("unpaid",
            """
            select width_bucket(current_date - due_date, array[1, 31, 61, 91])::text, count(*)::numeric, sum(gross - credited - paid)
            from invoices where kind = 'Invoice' and issued_at is not null and gross + cash_rounding - credited - paid <> 0 and $1 < $2 group by 1 order by 1
            """),
        ("in-and-out",
            """
            select to_char(m, 'YYYY-MM'), (select count(*)::numeric from repairs where booked_at >= m and booked_at < m + interval '1 month'),
              (select count(*)::numeric from repairs where returned_at >= m and returned_at < m + interval '1 month'),
              (select count(*)::numeric from repairs where booked_at < m + interval '1 month' and (returned_at is null or returned_at >= m + interval '1 month'))
            from generate_series($1, $2 - interval '1 month', interval '1 month') m
            """),
        ("turnaround",
            """
            select to_char(returned_at, 'YYYY-MM'), count(*)::numeric, round((percentile_cont(0.5) within group (order by extract(epoch from returned_at - booked_at) / 86400))::numeric, 4)
            from repairs where returned_at >= $1 and returned_at < $2 group by 1 order by 1
            """),
    ];

    public static async Task<IReadOnlyList<Comparison>> RunAsync(PostgresServer server, CancellationToken cancel)
    {
        await using var database = await server.CreateDatabaseAsync(cancel);
        var collection = new ServiceCollection();
        collection.AddLogging();
        collection.AddSingleton(TimeProvider.System);
        collection.AddShopServices(database.ConnectionString, Path.GetTempPath());
        await using var services = collection.BuildServiceProvider();
        await using var scope = services.CreateAsyncScope();
        await ShopDefaults.EnsureAsync(scope.ServiceProvider.GetRequiredService<ShopDb>(), cancel);
        await ListsData.FillAsync(database.ConnectionString, Repairs, cancel);
        await FiguresData.FillAsync(database.ConnectionString, cancel);
        var year = new Period(DateTime.UtcNow.Year - 1, null);
        await using var source = NpgsqlDataSource.Create(database.ConnectionString);
        var results = new List<Comparison>();
        foreach (var (key, sql) in Questions)
        {
            string ours = "", hand = "";
            async Task<double> OursAsync() => await MedianAsync(async () => ours = await AskAsync(services, key, year, cancel));
            async Task<double> HandAsync() => await MedianAsync(async () => hand = await AskByHandAsync(source, sql, year, cancel));
            await OursAsync();
            await HandAsync();
            if (ours != hand)
                throw new InvalidOperationException($"{key}: the figure says\n{ours}\nand by hand it is\n{hand}");
            results.Add(Comparison.Of($"figure: {key}", "ms", await Rounds.RunAsync(RoundCount, OursAsync, HandAsync), (one, other) => one / other, "none set", null));
        }

        return results;
    }

    private static async Task<double> MedianAsync(Func<Task> ask)
    {
        var times = new List<double>(Runs);
        for (var run = 0; run < Runs; run++)
        {
            var clock = Stopwatch.StartNew();
            await ask();
            times.Add(clock.Elapsed.TotalMilliseconds);
        }

        return Rounds.Median(times);
    }

    private static async Task<string> AskAsync(ServiceProvider services, string key, Period year, CancellationToken cancel)
    {
        await using var scope = services.CreateAsyncScope();
        var figure = await scope.ServiceProvider.GetRequiredService<FigureService>().OneAsync(key, year, FigureService.OnPage, cancel);
        var columns = key is "tax" or "in-and-out" ? 3 : 2;
        return string.Join('\n', figure!.Rows.Where(row => row.Values[0] != 0).Select(row => string.Join(" ", row.Values.Take(columns).Select(value => $"{value:0.####}"))));
    }

    private static async Task<string> AskByHandAsync(NpgsqlDataSource source, string sql, Period year, CancellationToken cancel)
    {
        await using var command = source.CreateCommand(sql);
        command.Parameters.Add(new() { Value = year.From });
        command.Parameters.Add(new() { Value = year.Until });
        await using var reader = await command.ExecuteReaderAsync(cancel);
        var rows = new List<string>();
        while (await reader.ReadAsync(cancel))
            rows.Add(string.Join(" ", Enumerable.Range(1, reader.FieldCount - 1).Select(column => $"{reader.GetDecimal(column):0.####}")));
        return string.Join('\n', rows);
    }
}
