using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>Reading the audit trail, newest first.</summary>
public sealed class AuditService(ShopDb db)
{
    public const int PageSize = 50;

    /// <param name="filter">What to show.</param>
    /// <param name="before">Only entries older than this one; null for the newest.</param>
    public async Task<AuditPage> Read(AuditFilter filter, long? before, CancellationToken ct = default)
    {
        var entries = db.Audit.AsNoTracking();
        if (before is { } id)
            entries = entries.Where(entry => entry.Id < id);
        if (filter.Entity is { Length: > 0 } entity)
            entries = entries.Where(entry => entry.Entity == entity);
        if (filter.By is { } by)
            entries = entries.Where(entry => entry.By == by);
        if (filter.From is { } from)
            entries = entries.Where(entry => entry.At >= from);
        if (filter.Until is { } until)
            entries = entries.Where(entry => entry.At < until);
        var found = await entries.OrderByDescending(entry => entry.Id).Take(PageSize + 1)
            .Select(entry => new
            {
                entry.Id,
                entry.At,
                By = db.Users.Where(account => account.Id == entry.By).Select(account => account.DisplayName).FirstOrDefault(),
                entry.Entity,
                entry.Action,
                entry.RepairId,
                Repair = db.Repairs.Where(repair => repair.Id == entry.RepairId).Select(repair => repair.Number).FirstOrDefault(),
                entry.Changes,
            })
            .ToListAsync(ct);
        var rows = found.Take(PageSize)
            .Select(entry => new AuditRow(entry.Id, entry.At, entry.By ?? "", entry.Entity, entry.Action, entry.Repair, Changes(entry.Changes)))
            .ToList();
        return new AuditPage(rows, found.Count > PageSize ? rows[^1].Id : null);
    }

    public Task<List<string>> Entities(CancellationToken ct = default) =>
        db.Audit.Select(entry => entry.Entity).Distinct().OrderBy(name => name).ToListAsync(ct);

    private static List<AuditChange> Changes(string json)
    {
        using var document = JsonDocument.Parse(json);
        return
        [
            .. document.RootElement.EnumerateObject()
                .Where(field => field.Value is { ValueKind: JsonValueKind.Array } pair && pair.GetArrayLength() == 2)
                .Select(field => new AuditChange(field.Name, field.Value[0].ToString(), field.Value[1].ToString())),
        ];
    }
}

/// <param name="Until">Exclusive.</param>
public sealed record AuditFilter(string? Entity, Guid? By, DateTimeOffset? From, DateTimeOffset? Until);

/// <param name="By">Empty when the program itself did it.</param>
public sealed record AuditRow(
    long Id, DateTimeOffset At, string By, string Entity, string Action, string? RepairNumber, IReadOnlyList<AuditChange> Changes);

public sealed record AuditChange(string Field, string Old, string New);

/// <param name="Next">Pass as <c>before</c> for the next page; null on the last.</param>
public sealed record AuditPage(IReadOnlyList<AuditRow> Rows, long? Next);
