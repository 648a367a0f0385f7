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

    /// <summary>The traits asked about so far, so that one thing is not written in two ways.</summary>
    public static IReadOnlyList<string> Traits(ModelPageView page, Guid? except) =>
    [
        .. page.Variants.Where(variant => variant.Id != except).SelectMany(variant => variant.Typed.Traits.Split('\n'))
            .Select(line => Trait.Read(line)?.Name).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase),
    ];
}
