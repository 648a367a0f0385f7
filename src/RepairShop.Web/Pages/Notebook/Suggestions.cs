using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>Names this workshop's findings have used for the model, so that what is written here is counted there.</summary>
internal static class Suggestions
{
    public static IEnumerable<string> For(EntryKind kind, ModelPageView page) => kind switch
    {
        EntryKind.Fault => page.Workshop.Faults.Select(fault => fault.Component),
        EntryKind.Gauge => page.Workshop.Gauges.Select(gauge => gauge.Name),
        _ => [],
    };
}
