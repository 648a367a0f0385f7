using RepairShop.Services.Checks;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Web.Pages.Checks;

/// <summary>What was checked and measured at both ends of a job.</summary>
public sealed record TestedView(string Number, IReadOnlyList<CheckPair> Checks, BeforeAndAfter Shutter)
{
    /// <summary>Two sections of a sheet show it: read once a request.</summary>
    public static async Task<TestedView> OfAsync(HttpContext http, CheckService checks, ShutterTestService tests, Guid repairId, string number)
    {
        var key = (typeof(TestedView), repairId);
        if (http.Items[key] is TestedView read)
            return read;
        var view = new TestedView(
            number, await checks.BeforeAndAfterAsync(repairId, http.RequestAborted), await tests.BeforeAndAfterAsync(repairId, http.RequestAborted));
        http.Items[key] = view;
        return view;
    }
}
