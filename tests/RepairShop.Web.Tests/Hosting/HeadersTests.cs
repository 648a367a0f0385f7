using System.Net;
using System.Text.RegularExpressions;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

public partial class HeadersTests(PostgresServer server)
{
    [GeneratedRegex("'nonce-([^']+)'")]
    private static partial Regex Nonce();

    [Theory]
    [InlineData("/account", HttpStatusCode.OK)]
    [InlineData("/account/sign-in", HttpStatusCode.OK)]
    [InlineData("/no-such-page", HttpStatusCode.NotFound)]
    [InlineData("/css/base.css", HttpStatusCode.OK)]
    [InlineData("/health/live", HttpStatusCode.OK)]
    public async Task Every_answer_carries_the_security_headers(string url, HttpStatusCode status)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn(Roles.Bench);
        using var answer = await client.Http.GetAsync(url == "/account/sign-in" ? "/account/sign-in?to=/account" : url, TestContext.Current.CancellationToken);
        Assert.Equal(status, answer.StatusCode);
        string Header(string name) => string.Join(", ", answer.Headers.GetValues(name));
        var csp = Header("Content-Security-Policy");
        foreach (var part in new[]
        {
            "default-src 'none'", "style-src 'self'", "img-src 'self' data: blob:", "form-action 'self'", "frame-ancestors 'none'", "base-uri 'none'",
        })
            Assert.Contains(part, csp);
        Assert.Matches("script-src 'self' 'nonce-[A-Za-z0-9+/=]{20,}'(;|$)", csp);
        Assert.DoesNotContain("unsafe", csp);
        Assert.Equal("nosniff", Header("X-Content-Type-Options"));
        Assert.Equal("DENY", Header("X-Frame-Options"));
        Assert.Equal("same-origin", Header("Referrer-Policy"));
        Assert.StartsWith("microphone=(self)", Header("Permissions-Policy"));
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task The_nonce_is_new_for_every_answer()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        var nonces = new HashSet<string>();
        for (var i = 0; i < 3; i++)
        {
            await client.Open("/account/sign-in");
            nonces.Add(Nonce().Match(string.Join("", client.Response.Headers.GetValues("Content-Security-Policy"))).Groups[1].Value);
        }

        Assert.Equal(3, nonces.Count);
    }

    [Theory]
    [InlineData("/account")]
    [InlineData("/shop")]
    [InlineData("/shop/people")]
    [InlineData("/shop/tax")]
    [InlineData("/no-such-page")]
    public async Task No_page_has_script_or_style_inside(string url)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open(url);
        Assert.Empty(client.Page.QuerySelectorAll("style, [style], script:not([src]), [onclick], [onsubmit], [onload], a[href^='javascript:']"));
        Assert.All(client.Page.QuerySelectorAll("script, link[rel=stylesheet]"), asset =>
            Assert.StartsWith("/", asset.GetAttribute("src") ?? asset.GetAttribute("href")));
    }

    [Fact]
    public async Task Every_form_that_posts_carries_an_antiforgery_token()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        foreach (var url in new[] { "/account", "/account/password", "/shop", "/shop/tax", "/shop/checks", "/shop/texts", "/shop/numbers", "/shop/people" })
        {
            await client.Open(url);
            var forms = client.Page.QuerySelectorAll("form[method=post]");
            Assert.NotEmpty(forms);
            Assert.All(forms, form => Assert.NotNull(form.QuerySelector("input[name=__RequestVerificationToken]")));
        }
    }
}
