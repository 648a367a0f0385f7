using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Estimates;

/// <summary>What two people made of the same draft, field by field and line by line.</summary>
internal static class EstimateDifferences
{
    public static IReadOnlyList<FieldDifference> Between(EstimateDraft stored, EstimateDraft typed)
    {
        var pairs = new List<FieldDifference>
        {
            new("WhatWasSeen", stored.WhatWasSeen, typed.WhatWasSeen.Trim()),
            new("NeedsConsent", stored.NeedsConsent, typed.NeedsConsent.Trim()),
            new("StripDownCharge", Number(stored.StripDownCharge), Number(typed.StripDownCharge)),
            new("ValidUntil", Day(stored.ValidUntil), Day(typed.ValidUntil)),
        };
        pairs.AddRange(Lines(stored.Lines, typed.Lines));
        return [.. pairs.Where(pair => pair.Stored != pair.Typed)];
    }

    public static IEnumerable<FieldDifference> Lines(IReadOnlyList<DraftLine> stored, IReadOnlyList<DraftLine> typed) =>
        Enumerable.Range(0, Math.Max(stored.Count, typed.Count)).Select(index => new FieldDifference(
            $"Line{index + 1}", Sentence(stored.ElementAtOrDefault(index)), Sentence(typed.ElementAtOrDefault(index))));

    private static string Sentence(DraftLine? line)
    {
        if (line is null)
            return "";
        var quantity = line.LowQuantity == line.HighQuantity
            ? Number(line.LowQuantity)
            : $"{Number(line.LowQuantity)}–{Number(line.HighQuantity)}";
        return $"{line.Text.Trim()}: {quantity} {line.Unit.Trim()} × {Number(line.UnitPrice)}";
    }

    private static string Number(decimal value) => value.ToString("0.####", CultureInfo.CurrentCulture);

    private static string Day(DateOnly day) => day.ToString("d", CultureInfo.CurrentCulture);
}
