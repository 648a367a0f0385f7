using System.Globalization;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace RepairShop.Web.Forms;

/// <summary>Binds a distance as scales are engraved: a number, or ∞ (also "inf") as positive infinity.</summary>
internal sealed class DistanceBinder : IModelBinder
{
    public const string Infinity = "∞";

    public Task BindModelAsync(ModelBindingContext bindingContext)
    {
        var given = bindingContext.ValueProvider.GetValue(bindingContext.ModelName);
        if (given == ValueProviderResult.None)
            return Task.CompletedTask;
        bindingContext.ModelState.SetModelValue(bindingContext.ModelName, given);
        var text = (given.FirstValue ?? "").Trim();
        if (text.Length == 0)
            bindingContext.Result = ModelBindingResult.Success(null);
        else if (text == Infinity || text.StartsWith("inf", StringComparison.OrdinalIgnoreCase))
            bindingContext.Result = ModelBindingResult.Success(double.PositiveInfinity);
        else if (NumberText.Read(text, CultureInfo.CurrentCulture) is { Value: { } value })
            bindingContext.Result = ModelBindingResult.Success((double)value);
        else
            bindingContext.ModelState.TryAddModelError(bindingContext.ModelName, $"“{text}” is no distance: write a number, or ∞.");
        return Task.CompletedTask;
    }
}
