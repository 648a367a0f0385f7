using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Npgsql;

namespace RepairShop.Benchmarks;

/// <summary>Listens to what EF sends while one page is made: the very statements, with the very values. What the post or another
/// worker asks meanwhile is not the page's, and is told by having no request.</summary>
internal sealed class SheetSql : IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>, IDisposable
{
    private readonly HttpContextAccessor request = new();
    private readonly ConcurrentQueue<IDisposable> subscriptions = new();
    private readonly ConcurrentQueue<Statement> heard = new();

    public SheetSql() => subscriptions.Enqueue(DiagnosticListener.AllListeners.Subscribe(this));

    public IReadOnlyList<Statement> Heard => [.. heard];

    public void Forget() => heard.Clear();

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == "Microsoft.EntityFrameworkCore")
            subscriptions.Enqueue(value.Subscribe(this));
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (request.HttpContext is not null && value.Value is CommandEventData { Command: NpgsqlCommand command } && value.Key == RelationalEventId.CommandExecuting.Name)
            heard.Enqueue(new Statement(command.CommandText, [.. command.Parameters.Select(one => one.Clone())]));
    }

    public void OnCompleted()
    {
    }

    public void OnError(Exception error)
    {
    }

    public void Dispose()
    {
        foreach (var subscription in subscriptions)
            subscription.Dispose();
    }
}

internal sealed record Statement(string Sql, IReadOnlyList<NpgsqlParameter> Parameters);
