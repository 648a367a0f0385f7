using System.Net;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using RepairShop.Web.Access;
using Xunit;

namespace RepairShop.Web.Tests.Access;

/// <summary>Walks over every page the program has, whoever wrote it.</summary>
public class AccessTests(PostgresServer server)
{
    private static readonly string[] OpenToAll = ["/account/sign-in", "/account/denied", "/first-start", "/error", "/answer", "/style"];

    [Fact]
    public async Task Every_page_carries_its_line_of_the_access_table()
    {
        await using var app = await ShopApp.Start(server);
        Assert.All(Pages(app), page =>
        {
            var line = AccessTable.For(Template(page));
            Assert.NotNull(line);
            if (line.Roles is null)
                Assert.NotNull(page.Metadata.GetMetadata<IAllowAnonymous>());
            else
                Assert.Contains(page.Metadata.GetOrderedMetadata<IAuthorizeData>(), data => data.Roles == string.Join(',', line.Roles));
        });
    }

    [Fact]
    public void Only_the_named_pages_are_open_without_signing_in() =>
        Assert.Equal(OpenToAll.Order(), AccessTable.Lines.Where(line => line.Roles is null).Select(line => line.Path).Order());

    [Fact]
    public void The_settings_are_the_owners_alone() =>
        Assert.Equal([Roles.Owner], AccessTable.For("shop/people")!.Roles);

    [Fact]
    public void A_longer_path_wins_over_a_shorter() =>
        Assert.Null(AccessTable.For("account/sign-in")!.Roles);

    [Fact]
    public void A_page_nobody_thought_of_has_no_line() =>
        Assert.Null(AccessTable.For("shopping"));

    [Fact]
    public async Task Somebody_not_signed_in_is_led_to_sign_in_from_every_other_page()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client(followRedirects: false);
        foreach (var page in Pages(app).Where(page => AccessTable.For(Template(page))!.Roles is not null))
        {
            await client.Open(Address(page));
            Assert.True(client.Status == HttpStatusCode.Redirect, $"{Address(page)} answered {client.Status}.");
            Assert.StartsWith("/account/sign-in?to=", client.Response.Headers.Location!.PathAndQuery());
        }
    }

    [Theory]
    [InlineData(Roles.Bench)]
    [InlineData(Roles.Counter)]
    public async Task A_role_that_may_not_open_a_page_gets_403_and_a_role_that_may_does_not(string role)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn(role);
        var refused = 0;
        foreach (var page in Pages(app).Where(page => !Template(page).StartsWith("error", StringComparison.Ordinal)))
        {
            await client.Open(Address(page));
            var may = AccessTable.For(Template(page))!.Roles is not { } roles || roles.Contains(role);
            Assert.True(may == (client.Status != HttpStatusCode.Forbidden), $"{role} at {Address(page)}: {client.Status}.");
            refused += may ? 0 : 1;
        }

        Assert.True(refused >= 7, "The settings pages at least are closed to this role.");
        await client.Open("/shop");
        Assert.Equal("Not for this account", client.Heading);
    }

    [Fact]
    public async Task The_header_offers_only_rooms_one_may_enter()
    {
        await using var app = await ShopApp.Start(server);
        using var bench = await app.SignedIn(Roles.Bench);
        Assert.DoesNotContain("Shop", bench.Page.QuerySelectorAll("nav.rooms a").Select(link => link.TextContent));
        using var owner = await app.SignedIn();
        Assert.Equal(Rooms.All.Select(room => room.Name), owner.Page.QuerySelectorAll("nav.rooms a").Select(link => link.TextContent));
    }

    private static List<RouteEndpoint> Pages(ShopApp app)
    {
        var pages = app.Services.GetServices<EndpointDataSource>().SelectMany(source => source.Endpoints).OfType<RouteEndpoint>()
            .Where(endpoint => endpoint.Metadata.GetMetadata<PageActionDescriptor>() is not null)
            .ToList();
        Assert.True(pages.Count >= 15, $"Only {pages.Count} pages were found.");
        return pages;
    }

    private static string Template(RouteEndpoint page) => page.RoutePattern.RawText ?? "";

    /// <summary>Parameters filled with something that fits their kind and names nothing.</summary>
    private static string Address(RouteEndpoint page) => "/" + string.Join('/', page.RoutePattern.PathSegments.Select(segment =>
        string.Concat(segment.Parts.Select(part => part switch
        {
            Microsoft.AspNetCore.Routing.Patterns.RoutePatternLiteralPart literal => literal.Content,
            Microsoft.AspNetCore.Routing.Patterns.RoutePatternSeparatorPart separator => separator.Content,
            Microsoft.AspNetCore.Routing.Patterns.RoutePatternParameterPart parameter => parameter.ParameterPolicies.Any(policy => policy.Content == "guid")
                ? Guid.Empty.ToString()
                : "1",
            _ => "",
        }))));
}

internal static class UriText
{
    public static string PathAndQuery(this Uri uri) => uri.IsAbsoluteUri ? uri.PathAndQuery : uri.OriginalString;
}
