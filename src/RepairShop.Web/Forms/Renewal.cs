using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;

namespace RepairShop.Web.Forms;

/// <summary>After a clash the form shows both values; saving it again must be held against what is stored now.</summary>
public static class Renewal
{
    /// <param name="page">The page with the form.</param>
    /// <param name="result">What saving said.</param>
    /// <param name="field">The hidden field that carries the version.</param>
    /// <param name="renew">Reads the version that is stored now.</param>
    public static async Task Renew(this PageModel page, Result result, string field, Func<Task> renew)
    {
        if (result.Failure is not ChangedMeanwhile)
            return;
        page.ModelState.Remove(field);
        await renew();
    }
}
