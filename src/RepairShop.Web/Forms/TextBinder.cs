using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.ModelBinding.Binders;
using RepairShop.Domain.Shop;

namespace RepairShop.Web.Forms;

/// <summary>Binds text without what no field can keep: control characters (the database refuses the zero, XML most of the others) and
/// halves of characters. Line ends and tabs stay.</summary>
internal sealed class TextBinder(IModelBinder plain) : IModelBinder
{
    public async Task BindModelAsync(ModelBindingContext bindingContext)
    {
        await plain.BindModelAsync(bindingContext);
        if (bindingContext.Result.Model is string typed)
            bindingContext.Result = ModelBindingResult.Success(TypedText.WithoutControls(typed));
    }
}

internal sealed class TextBinderProvider : IModelBinderProvider
{
    public IModelBinder? GetBinder(ModelBinderProviderContext context) =>
        context.Metadata.ModelType == typeof(string) && context.BindingInfo is { BinderType: null, BindingSource: not { IsGreedy: true } }
            ? new TextBinder(new SimpleTypeModelBinder(typeof(string), context.Services.GetRequiredService<ILoggerFactory>()))
            : null;
}
