using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Work;

/// <summary>Top of every page of work on one repair: the way back, what is on the bench, and the pages beside this one.</summary>
/// <param name="Title">What this page is for.</param>
public sealed record WorkHead(RepairHead Repair, string Title)
{
    private const string BenchViewCookie = "bench-view";

    /// <summary>For oily fingers, chosen on the sheet and kept per device.</summary>
    public static string? BodyClass(HttpRequest request) => request.Cookies[BenchViewCookie] == "bench" ? "bench" : null;
}
