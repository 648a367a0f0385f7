using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Database;

/// <summary>Turns the database's "no" on one of our own named constraints into the matching failure.</summary>
public static class SaveExtensions
{
    /// <summary>Saves; a refused constraint named in <paramref name="refusals"/> comes back as its failure,
    /// a row changed in between as <see cref="ChangedMeanwhile"/>. Anything else is a bug and stays an exception.
    /// A context whose save failed is not used again.</summary>
    public static async Task<Result> SaveAsync(
        this ShopDb db, CancellationToken cancel, params (string Constraint, Failure Failure)[] refusals)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return Result.Done;
        }
        catch (DbUpdateConcurrencyException conflict)
        {
            return new ChangedMeanwhile(await DifferencesAsync(conflict, cancel));
        }
        catch (DbUpdateException update) when (update.InnerException is PostgresException refused)
        {
            if (refused.ConstraintName == "month_is_closed")
                return new MonthIsClosed();
            foreach (var (constraint, failure) in refusals)
            {
                if (refused.ConstraintName == constraint)
                    return failure;
            }
            throw;
        }
    }

    private static async Task<IReadOnlyList<FieldDifference>> DifferencesAsync(
        DbUpdateConcurrencyException conflict, CancellationToken cancel)
    {
        var differences = new List<FieldDifference>();
        foreach (var entry in conflict.Entries)
        {
            var stored = await entry.GetDatabaseValuesAsync(cancel);
            var modified = entry.Properties.Concat(entry.ComplexProperties.SelectMany(part => part.Properties)).Where(property => property.IsModified);
            foreach (var property in modified)
            {
                var now = stored?[property.Metadata];
                if (!Same(now, property.CurrentValue))
                    differences.Add(new FieldDifference(property.Metadata.Name, Text(now), Text(property.CurrentValue)));
            }
        }
        return differences;
    }

    private static bool Same(object? left, object? right) =>
        left is IEnumerable<string> some && right is IEnumerable<string> others ? some.SequenceEqual(others) : Equals(left, right);

    private static string Text(object? value) => value is IEnumerable<string> texts ? string.Join(", ", texts) : $"{value}";
}
