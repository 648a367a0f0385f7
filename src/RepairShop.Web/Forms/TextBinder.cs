using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.ModelBinding.Binders;
using RepairShop.Domain.Shop;

namespace RepairShop.Web.Forms;

/// <summary>
/// Text as it was typed, without the signs that nobody types and that neither the database nor XML can hold: control characters
/// come with a paste or from a scanner. Ends of lines and tabs stay.
/// </summary>
internal sealed class TextBinder(IModelBinder plain) : IModelBinder
{
    public async Task BindModelAsync(ModelBindingContext bindingContext)
    {
        await plain.BindModelAsync(bindingContext);
        if (bindingContext.Result.Model is not string typed || TypedText.WithoutControls(typed) is not { } clean || clean == typed)
            return;
        bindingContext.ModelState.SetModelValue(bindingContext.ModelName, clean, clean);
        bindingContext.Result = ModelBindingResult.Success(clean);
    }
}

internal sealed class TextBinderProvider : IModelBinderProvider
{
    public IModelBinder? GetBinder(ModelBinderProviderContext context) =>
        context.BindingInfo.BinderType is null && context.Metadata.ModelType == typeof(string)
            && context.BindingInfo.BindingSource?.CanAcceptDataFrom(BindingSource.ModelBinding) is not false
            ? new TextBinder(new SimpleTypeModelBinder(typeof(string), context.Services.GetRequiredService<ILoggerFactory>()))
            : null;
}
