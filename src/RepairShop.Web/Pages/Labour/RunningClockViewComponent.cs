using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Labour;

namespace RepairShop.Web.Pages.Labour;

/// <summary>The signed-in person's running clock, in the header of every page; nothing while it stands still.</summary>
public sealed class RunningClockViewComponent(ClockService clock) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync() =>
        await clock.RunningAsync(HttpContext.RequestAborted) is { } running ? View(running) : Content("");
}
