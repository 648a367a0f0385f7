using System.ComponentModel.DataAnnotations;
using System.Globalization;
using RepairShop.Domain.Invoices;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Money;

/// <summary>A discount or charge as people write it: 10 % and 5 take off, +5 and +2.5 % put on.</summary>
public static class ChangeText
{
    public const string Hint = "10 % or 5.00 takes off; with a plus in front, +5.00, it is a charge.";

    /// <returns>The change, none for an empty text; or the sentence that says why it can't be read.</returns>
    public static (PriceChange Change, string? Refusal) Read(string? text)
    {
        var plain = (text ?? "").Trim();
        if (plain.Length == 0)
            return (default, null);
        var isPercent = plain.EndsWith('%');
        var isCharge = plain.StartsWith('+');
        var figure = plain.TrimEnd('%').TrimStart('+', '-', '−').Trim();
        var reading = NumberText.Read(figure, CultureInfo.CurrentCulture);
        if (reading.Value is not { } value || value < 0 || value >= Amount.Most || (isPercent && value > 1000))
            return (default, reading.Refusal ?? $"“{plain}” is out of range: write up to 100 %, or an amount.");
        var signed = isCharge ? value : -value;
        return (isPercent ? new PriceChange(signed, 0) : new PriceChange(null, signed), null);
    }

    public static string? Of(PriceChange change) => change.IsNone
        ? null
        : (change.Percent ?? change.Amount) > 0 ? "+" + Figure(change) : Figure(change);

    private static string Figure(PriceChange change) =>
        change.Percent is { } percent ? $"{FieldText.Of(Math.Abs(percent))} %" : FieldText.Of(Math.Abs(change.Amount))!;
}

/// <summary>The text is a discount or charge, or empty.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class ChangeTextAttribute : ValidationAttribute
{
    protected override ValidationResult? IsValid(object? value, ValidationContext validationContext) =>
        ChangeText.Read(value as string).Refusal is { } refusal ? new ValidationResult(refusal) : ValidationResult.Success;
}
