using System.Net;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Accounts;

public class FirstStartTests(PostgresServer server)
{
    private static (string, string)[] Filled(string code) =>
    [
        ("Input.Code", code), ("Input.Name", "Mara Quill"), ("Input.Email", "mara@example.com"),
        ("Input.Password", ShopApp.Password), ("Input.Again", ShopApp.Password),
    ];

    [Theory]
    [InlineData("/")]
    [InlineData("/shop")]
    [InlineData("/account/sign-in")]
    public async Task Every_page_of_an_empty_shop_leads_to_the_first_start(string url)
    {
        await using var app = await ShopApp.StartEmpty(server);
        using var client = app.Client();
        await client.Open(url);
        Assert.Equal("/first-start", client.Url);
    }

    [Fact]
    public async Task The_code_from_the_console_makes_the_owner_who_lands_on_the_settings()
    {
        await using var app = await ShopApp.StartEmpty(server);
        using var client = app.Client();
        await client.Open("/first-start");
        await client.Press("Create the owner’s account", Filled(app.Services.GetRequiredService<FirstStart>().Code.ToUpperInvariant().Replace('-', ' ')));
        Assert.Equal("/shop", client.Url);
        Assert.Contains("You are the owner.", client.Notice);
        await client.Open("/first-start");
        Assert.NotEqual("/first-start", client.Url);
    }

    [Fact]
    public async Task A_wrong_code_makes_nobody_and_keeps_what_was_typed()
    {
        await using var app = await ShopApp.StartEmpty(server);
        using var client = app.Client();
        await client.Open("/first-start");
        await client.Press("Create the owner’s account", Filled("aaaa-bbbb-cccc-dddd"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Equal(["This is not the code: look at the console window in which the program was started, and type what it shows there."], client.Errors);
        Assert.Equal("mara@example.com", client.Value("Input.Email"));
        Assert.False(await app.With((AccountService accounts) => accounts.HasOwner()));
    }

    [Fact]
    public async Task Codes_cannot_be_tried_on_and_on()
    {
        await using var app = await ShopApp.StartEmpty(server);
        using var client = app.Client();
        await client.Open("/first-start");
        for (var tries = 0; tries < 10; tries++)
            await client.Press("Create the owner’s account", Filled("aaaa-bbbb-cccc-dddd"));
        await client.Press("Create the owner’s account", Filled(app.Services.GetRequiredService<FirstStart>().Code));
        Assert.Equal(HttpStatusCode.TooManyRequests, client.Status);
        Assert.Equal(["Too many tries: wait a minute, then try again."], client.Errors);
    }

    [Fact]
    public async Task Two_people_with_the_code_make_one_owner()
    {
        await using var app = await ShopApp.StartEmpty(server);
        var code = app.Services.GetRequiredService<FirstStart>().Code;
        var made = await Task.WhenAll(Enumerable.Range(0, 4).Select(number => app.With((AccountService accounts) =>
            accounts.CreateFirstOwner(code, new NewPerson("Somebody", $"p{number}@example.com", Roles.Owner), ShopApp.Password))));
        Assert.Single(made, one => one.IsDone);
        Assert.All(made.Where(one => !one.IsDone), one => Assert.IsType<OwnerExists>(one.Failure));
    }

    [Fact]
    public async Task A_short_password_is_refused_beside_its_field()
    {
        await using var app = await ShopApp.StartEmpty(server);
        var code = app.Services.GetRequiredService<FirstStart>().Code;
        using var client = app.Client();
        await client.Open("/first-start");
        await client.Press("Create the owner’s account",
            ("Input.Code", code), ("Input.Name", "Mara"), ("Input.Email", "mara@example.com"), ("Input.Password", "short"), ("Input.Again", "short"));
        Assert.Equal("The password is too short: use 10 characters or more, such as a few words.", client.Page.QuerySelector("#Input_Password-error")!.TextContent);
    }
}
