using System.Globalization;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace RepairShop.Web.Forms;

/// <summary>Binds decimal and double from what people type; see <see cref="NumberText"/>.</summary>
internal sealed class NumberBinder : IModelBinder
{
    public Task BindModelAsync(ModelBindingContext bindingContext)
    {
        var given = bindingContext.ValueProvider.GetValue(bindingContext.ModelName);
        if (given == ValueProviderResult.None)
            return Task.CompletedTask;
        bindingContext.ModelState.SetModelValue(bindingContext.ModelName, given);
        var text = given.FirstValue;
        if (string.IsNullOrWhiteSpace(text))
        {
            if (bindingContext.ModelMetadata.IsReferenceOrNullableType)
                bindingContext.Result = ModelBindingResult.Success(null);
            else
                Refuse(bindingContext, $"{bindingContext.ModelMetadata.GetDisplayName()} is empty: fill it in.");
            return Task.CompletedTask;
        }

        var reading = NumberText.Read(text, CultureInfo.CurrentCulture);
        if (reading.Value is not { } value)
            Refuse(bindingContext, $"{bindingContext.ModelMetadata.GetDisplayName()}: {reading.Refusal}");
        else
            bindingContext.Result = ModelBindingResult.Success(
                bindingContext.ModelMetadata.UnderlyingOrModelType == typeof(double) ? (object)(double)value : value);
        return Task.CompletedTask;
    }

    private static void Refuse(ModelBindingContext context, string sentence) =>
        context.ModelState.TryAddModelError(context.ModelName, sentence);
}

internal sealed class NumberBinderProvider : IModelBinderProvider
{
    public IModelBinder? GetBinder(ModelBinderProviderContext context) =>
        // A property may name a binder of its own, as distances do that can be infinite.
        context.BindingInfo.BinderType is null
        && (context.Metadata.UnderlyingOrModelType == typeof(decimal) || context.Metadata.UnderlyingOrModelType == typeof(double))
            ? new NumberBinder()
            : null;
}
