using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Reflection;
using System.Text;
using Microsoft.AspNetCore.Mvc.Rendering;

namespace RepairShop.Web.Forms;

/// <summary>Values as text in inputs, and property names as words.</summary>
public static class FieldText
{
    public static bool IsNumber(Type type) => type == typeof(decimal) || type == typeof(double);

    /// <summary>What stands in the input: the shop's decimal mark, no thousands, no trailing zeros; ISO for dates as browsers want.</summary>
    public static string? Of(object? value) => value switch
    {
        null => null,
        decimal number => number.ToString("0.############", CultureInfo.CurrentCulture),
        double number => number.ToString("0.############", CultureInfo.CurrentCulture),
        DateOnly date => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        TimeOnly time => time.ToString("HH:mm", CultureInfo.InvariantCulture),
        DateTime local => local.ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString(),
    };

    /// <summary>"LabourRate" → "Labour rate".</summary>
    public static string Words(string name)
    {
        var words = new StringBuilder();
        foreach (var letter in name)
            words.Append(words.Length == 0 ? letter : char.IsUpper(letter) ? " " + char.ToLowerInvariant(letter) : letter.ToString());
        return words.ToString();
    }

    /// <summary>An enum's members as choices: [Display(Name)] or the name as words.</summary>
    public static IEnumerable<SelectListItem> ChoicesOf(Type type) =>
        Enum.GetNames(type).Select(name => new SelectListItem(
            type.GetField(name)?.GetCustomAttribute<DisplayAttribute>()?.GetName() ?? Words(name), name));
}
