using System.Net;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Access;

/// <summary>Walks over every page with things in its address that nobody would type on purpose.</summary>
public class HostileAddressTests(PostgresServer server)
{
    [Theory]
    [InlineData("a\0b")]
    [InlineData("199 letters and a picture of two halves")]
    [InlineData("9999-12-31")]
    [InlineData("9223372036854775807")]
    [InlineData("%_\\'\"<>")]
    public async Task No_page_breaks_on(string value)
    {
        var typed = value.StartsWith("199", StringComparison.Ordinal) ? new string('a', 199) + "📷" : value;
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        var customer = await app.WithDb(db => db.Customers.Select(row => row.Id).SingleAsync());
        using var client = await app.SignedIn();
        var broken = new List<string>();
        foreach (var page in app.Services.GetServices<EndpointDataSource>().SelectMany(source => source.Endpoints).OfType<RouteEndpoint>())
        {
            if (page.Metadata.GetMetadata<PageActionDescriptor>() is not { } descriptor)
                continue;
            var names = (page.Metadata.GetMetadata<CompiledPageActionDescriptor>() ?? descriptor).BoundProperties
                .Select(one => one.BindingInfo?.BinderModelName ?? one.Name).Where(name => name is not ("Number" or "Id")).ToList();
            foreach (var handler in new[] { "", "&handler=File" })
            {
                var address = $"{Address(page, customer)}?{string.Join('&', names.Select(name => $"{name}={Uri.EscapeDataString(typed)}"))}{handler}";
                if (page.RoutePattern.RawText!.StartsWith("error", StringComparison.Ordinal))
                    continue;
                await client.Open(address);
                if (client.Status == HttpStatusCode.InternalServerError)
                    broken.Add(address);
            }
        }
        Assert.Empty(broken);
    }

    private static string Address(RouteEndpoint page, Guid customer) => "/" + string.Join('/', page.RoutePattern.PathSegments.Select(segment =>
        string.Concat(segment.Parts.Select(part => part switch
        {
            RoutePatternLiteralPart literal => literal.Content,
            RoutePatternSeparatorPart separator => separator.Content,
            RoutePatternParameterPart { Name: "number" } => "2026-0001",
            RoutePatternParameterPart { Name: "phase" } => "as-received",
            RoutePatternParameterPart { Name: "figure" } => "revenue",
            RoutePatternParameterPart { Name: "size" } => "small",
            RoutePatternParameterPart parameter => parameter.ParameterPolicies.Any(policy => policy.Content == "guid") ? customer.ToString() : "1",
            _ => "",
        }))));
}
