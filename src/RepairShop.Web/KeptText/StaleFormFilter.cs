using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Core.Infrastructure;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using RepairShop.Web.Forms;

namespace RepairShop.Web.KeptText;

/// <summary>A form whose antiforgery token no longer fits (signed in anew in another tab, keys renewed) comes back with its text.</summary>
internal sealed class StaleFormFilter : IAsyncAlwaysRunResultFilter
{
    public async Task OnResultExecutionAsync(ResultExecutingContext context, ResultExecutionDelegate next)
    {
        if (context.Result is IAntiforgeryValidationFailedResult && await KeptForms.Read(context.HttpContext.Request) is { } form)
            context.Result = KeptForms.HoldsSecrets(context.HttpContext.Request.Path) ? LoadAnew(context.HttpContext) : KeptForms.Show(form);
        await next();
    }

    private static LocalRedirectResult LoadAnew(HttpContext context)
    {
        var notices = context.RequestServices.GetRequiredService<ITempDataDictionaryFactory>().GetTempData(context);
        notices[Notices.Key] = "This page had gone stale and was loaded anew: please do it once more.";
        notices.Save(); // the filter that saves them does not run for a refused request
        return new LocalRedirectResult($"{context.Request.PathBase}{context.Request.Path}");
    }
}
