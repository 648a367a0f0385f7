using System.Net;
using System.Text;
using Npgsql;

namespace RepairShop.Benchmarks;

/// <summary>What a person would write without any framework on top: the sheet's statements one after the other on one
/// connection, every value written as plain HTML. No sign-in, no layout, no request log.</summary>
internal static class HandPage
{
    public static async Task<WebApplication> StartAsync(string connectionString, IReadOnlyList<Statement> statements, CancellationToken cancel)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        builder.Services.AddSingleton(NpgsqlDataSource.Create(connectionString));
        var app = builder.Build();
        var source = app.Services.GetRequiredService<NpgsqlDataSource>();
        app.MapGet("/sheet", async context =>
        {
            context.Response.ContentType = "text/html; charset=utf-8";
            await context.Response.WriteAsync(await WriteAsync(source, statements, context.RequestAborted), context.RequestAborted);
        });
        await app.StartAsync(cancel);
        return app;
    }

    private static async Task<string> WriteAsync(NpgsqlDataSource source, IReadOnlyList<Statement> statements, CancellationToken cancel)
    {
        var html = new StringBuilder("<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Sheet</title>", 32 * 1024);
        await using var connection = await source.OpenConnectionAsync(cancel);
        foreach (var (sql, parameters) in statements)
        {
            await using var command = new NpgsqlCommand(sql, connection);
            foreach (var parameter in parameters)
                command.Parameters.Add(parameter.Clone());
            await using var reader = await command.ExecuteReaderAsync(cancel);
            html.Append("<table>");
            while (await reader.ReadAsync(cancel))
                Row(html, reader);
            html.Append("</table>");
        }

        return html.Append("</html>").ToString();
    }

    private static void Row(StringBuilder html, NpgsqlDataReader reader)
    {
        html.Append("<tr>");
        for (var column = 0; column < reader.FieldCount; column++)
            html.Append("<td>").Append(WebUtility.HtmlEncode(reader.GetValue(column) is Array many ? string.Join(", ", many.Cast<object>()) : reader.GetValue(column).ToString())).Append("</td>");
        html.Append("</tr>");
    }
}
