using System.Text.Json;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;

namespace RepairShop.Services.Database;

/// <summary>Turns what the context is about to save into lines of the audit trail.</summary>
internal static class AuditTrail
{
    private static readonly HashSet<Type> LeftOut =
    [
        typeof(AuditEntry), typeof(NumberSeries), typeof(DataProtectionKey),
        typeof(JournalEntry), typeof(JournalLine), // a trail themselves
        typeof(IdentityUserToken<Guid>), typeof(IdentityUserLogin<Guid>), typeof(IdentityUserClaim<Guid>),
    ];

    private static readonly HashSet<string> Secrets =
    [
        nameof(Account.PasswordHash), nameof(Account.SecurityStamp), nameof(Account.ConcurrencyStamp),
        nameof(Account.AccessFailedCount), nameof(Account.LockoutEnd), "TokenHash", "Facts", "Steps", "Result", "Version",
        nameof(Account.NormalizedEmail), nameof(Account.NormalizedUserName),
    ];

    public static void Record(ShopDb db, Guid? by, DateTimeOffset at)
    {
        db.ChangeTracker.DetectChanges();
        var lines = db.ChangeTracker.Entries()
            .Where(entry => entry.State is EntityState.Added or EntityState.Modified or EntityState.Deleted)
            .Where(entry => !LeftOut.Contains(entry.Metadata.ClrType))
            .Select(entry => Line(entry, by, at))
            .OfType<AuditEntry>()
            .ToList();
        db.Set<AuditEntry>().AddRange(lines);
    }

    private static AuditEntry? Line(EntityEntry entry, Guid? by, DateTimeOffset at)
    {
        var changes = new Dictionary<string, object?[]>();
        Collect(entry.State, entry.Properties, "", changes);
        foreach (var complex in entry.ComplexProperties)
            Collect(entry.State, complex.Properties, complex.Metadata.Name + ".", changes);
        if (entry.State == EntityState.Modified && changes.Count == 0)
            return null;
        return new AuditEntry
        {
            At = at,
            By = by,
            Entity = entry.Metadata.ClrType.Name,
            EntityId = string.Join('/', entry.Properties.Where(p => p.Metadata.IsPrimaryKey()).Select(p => p.CurrentValue)),
            RepairId = RepairOf(entry),
            Action = entry.State switch
            {
                EntityState.Added => "added",
                EntityState.Deleted => "removed",
                _ => "changed",
            },
            Changes = JsonSerializer.Serialize(changes),
        };
    }

    private static void Collect(
        EntityState state, IEnumerable<PropertyEntry> properties, string prefix, Dictionary<string, object?[]> changes)
    {
        foreach (var property in properties)
        {
            if (Secrets.Contains(property.Metadata.Name) || property.Metadata.IsPrimaryKey())
                continue;
            var old = state == EntityState.Added ? null : Plain(property.OriginalValue);
            var now = state == EntityState.Deleted ? null : Plain(property.CurrentValue);
            if (state != EntityState.Modified ? old is not (null or "") || now is not (null or "") : property.IsModified && !Equals(old, now))
                changes[prefix + property.Metadata.Name] = [old, now];
        }
    }

    private static object? Plain(object? value) => value switch
    {
        null => null,
        string or bool or int or long or decimal or double => value,
        IEnumerable<string> texts => string.Join(", ", texts),
        IFormattable formattable => formattable.ToString(null, System.Globalization.CultureInfo.InvariantCulture),
        _ => value.ToString(),
    };

    private static Guid? RepairOf(EntityEntry entry) =>
        entry.Metadata.ClrType == typeof(Domain.Repairs.Repair)
            ? (Guid?)entry.Property(nameof(Domain.Repairs.Repair.Id)).CurrentValue
            : entry.Metadata.FindProperty("RepairId") is null ? null : entry.Property("RepairId").CurrentValue as Guid?;
}
