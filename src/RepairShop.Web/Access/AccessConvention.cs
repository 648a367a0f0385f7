using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.ApplicationModels;

namespace RepairShop.Web.Access;

/// <summary>Puts the access table's answer on every page as it is discovered, and refuses to start with a page it does not know.</summary>
internal sealed class AccessConvention : IPageRouteModelConvention
{
    public void Apply(PageRouteModel model)
    {
        foreach (var selector in model.Selectors)
        {
            var template = selector.AttributeRouteModel?.Template ?? "";
            var line = AccessTable.For(template)
                ?? throw new InvalidOperationException($"The page at /{template} has no line in {nameof(AccessTable)}: add one.");
            selector.EndpointMetadata.Add(line.Roles is null
                ? new AllowAnonymousAttribute()
                : new AuthorizeAttribute { Roles = string.Join(',', line.Roles) });
        }
    }
}
