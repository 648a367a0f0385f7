using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Services.Checks;

/// <summary>One function check on the form.</summary>
/// <param name="Was">What was stored when the form was opened, as one text: a row nobody touched is left alone,
/// so that two people may tick different rows of one list.</param>
public sealed record CheckTyped(string Name, string Unit, CheckOutcome Outcome, string Note, double? Value, string Was);

/// <summary>One line of the list, with what the earlier phases said.</summary>
public sealed record CheckLine(string Name, string Unit, CheckOutcome Outcome, string Note, double? Value, string Was, CheckSaid? AsReceived);

/// <summary>How a check came out.</summary>
public sealed record CheckSaid(CheckOutcome Outcome, string Note, double? Value, string Unit);

/// <summary>Both ends of the job for one check; null where it was not done.</summary>
public sealed record CheckPair(string Name, CheckSaid? AsReceived, CheckSaid? AfterService);

/// <summary>Function checks of a repair, from the shop's own list and whatever this camera needed beside it.</summary>
public sealed class CheckService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    public const int LongestNote = 500;

    public async Task<IReadOnlyList<CheckLine>> FormAsync(Guid repairId, Phase phase, CancellationToken cancel)
    {
        var list = await db.CheckItems.AsNoTracking().Where(item => item.RetiredAt == null).OrderBy(item => item.Position).ToListAsync(cancel);
        var results = await db.CheckResults.AsNoTracking().Where(row => row.RepairId == repairId)
            .OrderBy(row => row.Position).ThenBy(row => row.CheckedAt).ToListAsync(cancel);
        var names = list.Select(item => (item.Name, item.Unit))
            .Concat(results.Select(row => (row.Name, row.Unit)))
            .DistinctBy(line => line.Name);
        return [.. names.Select(line =>
        {
            var now = results.Find(row => row.Phase == phase && row.Name == line.Name);
            return new CheckLine(
                line.Name, now?.Unit ?? line.Unit, now?.Outcome ?? CheckOutcome.NotTested, now?.Note ?? "", now?.Value, Mark(now),
                phase == Phase.AsReceived ? null : Said(results.Find(row => row.Phase == Phase.AsReceived && row.Name == line.Name)));
        })];
    }

    /// <summary>What was checked as received and after service, in the list's order; checks never done are left out.</summary>
    public async Task<IReadOnlyList<CheckPair>> BeforeAndAfterAsync(Guid repairId, CancellationToken cancel)
    {
        var results = await db.CheckResults.AsNoTracking()
            .Where(row => row.RepairId == repairId && row.Phase != Phase.DuringWork && row.Outcome != CheckOutcome.NotTested)
            .OrderBy(row => row.Position).ThenBy(row => row.CheckedAt).ToListAsync(cancel);
        return [.. results.GroupBy(row => row.Name).Select(group => new CheckPair(
            group.Key,
            Said(group.FirstOrDefault(row => row.Phase == Phase.AsReceived)),
            Said(group.FirstOrDefault(row => row.Phase == Phase.AfterService))))];
    }

    /// <summary>Saves the rows that were touched. Where somebody else changed the same row, nothing is saved and both values come back.</summary>
    public async Task<Result> SaveAsync(Guid repairId, Phase phase, IReadOnlyList<CheckTyped> rows, CancellationToken cancel)
    {
        if (WhyNot(rows) is { } refused)
            return refused;
        var stored = await db.CheckResults.Where(row => row.RepairId == repairId && row.Phase == phase).ToDictionaryAsync(row => row.Name, cancel);
        var touched = rows.Select((row, index) => (Row: row, Position: index + 1)).Where(line => Mark(line.Row) != line.Row.Was).ToList();
        var clashes = touched.Select(line => line.Row)
            .Where(row => Mark(stored.GetValueOrDefault(row.Name)) is var now && now != row.Was && now != Mark(row))
            .Select(row => new FieldDifference(row.Name, Words(stored.GetValueOrDefault(row.Name)), Words(row)))
            .ToList();
        if (clashes.Count > 0)
            return new ChangedMeanwhile(clashes);
        foreach (var (row, position) in touched)
            Write(stored.GetValueOrDefault(row.Name) ?? Add(repairId, phase), row, position);
        var names = string.Join(", ", touched.Select(line => line.Row.Name));
        return await db.SaveAsync(cancel, ("ix_check_results_repair_id_phase_name",
            new ChangedMeanwhile([new FieldDifference(names, "just saved by somebody else", "as in the form")])));
    }

    /// <summary>A row's values as one text, to see whether they were touched.</summary>
    public static string Mark(CheckResult? row) =>
        row is null ? Mark(CheckOutcome.NotTested, "", null, "") : Mark(row.Outcome, row.Note, row.Value, row.Unit);

    private static string Mark(CheckTyped row) => Mark(row.Outcome, row.Note.Trim(), row.Value, row.Value is null ? "" : row.Unit.Trim());

    private static string Mark(CheckOutcome outcome, string note, double? value, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{outcome}|{value:R}|{(value is null ? "" : unit)}|{note}");

    private static Failure? WhyNot(IReadOnlyList<CheckTyped> rows)
    {
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].Value is { } value && !double.IsFinite(value))
                return new CheckValueNotFinite($"Rows[{i}].Value", rows[i].Name);
            if (rows[i].Note.Trim().Length > LongestNote)
                return new CheckNoteTooLong($"Rows[{i}].Note", rows[i].Name);
        }

        var twice = rows.GroupBy(row => row.Name.Trim(), StringComparer.CurrentCultureIgnoreCase).FirstOrDefault(group => group.Count() > 1);
        return twice is null ? null : new CheckNamedTwice(twice.Key);
    }

    private CheckResult Add(Guid repairId, Phase phase)
    {
        var row = new CheckResult { RepairId = repairId, Phase = phase };
        db.CheckResults.Add(row);
        return row;
    }

    private void Write(CheckResult row, CheckTyped typed, int position)
    {
        row.Name = typed.Name.Trim();
        row.Unit = typed.Unit.Trim();
        row.Position = position;
        row.Outcome = typed.Outcome;
        row.Note = typed.Note.Trim();
        row.Value = typed.Value;
        row.CheckedAt = clock.GetUtcNow();
        row.CheckedBy = person.RequiredId;
    }

    private static CheckSaid? Said(CheckResult? row) => row is null ? null : new CheckSaid(row.Outcome, row.Note, row.Value, row.Unit);

    private static string Words(CheckResult? row) => row is null ? CheckWords.Of(CheckOutcome.NotTested) : Words(row.Outcome, row.Value, row.Unit, row.Note);

    private static string Words(CheckTyped row) => Words(row.Outcome, row.Value, row.Unit, row.Note.Trim());

    private static string Words(CheckOutcome outcome, double? value, string unit, string note) =>
        string.Join(", ", new[] { CheckWords.Of(outcome), value is null ? "" : $"{value} {unit}".Trim(), note }.Where(part => part.Length > 0));
}
