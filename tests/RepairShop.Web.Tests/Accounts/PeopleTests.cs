using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Accounts;

public class PeopleTests(PostgresServer server)
{
    [Fact]
    public async Task A_new_person_signs_in_with_the_password_handed_over_and_must_change_it_first()
    {
        await using var app = await ShopApp.Start(server);
        using var owner = await app.SignedIn();
        await owner.Open("/shop/people");
        await owner.Press("Add person", ("Input.Name", "Ines Halloway"), ("Input.Email", "ines@example.com"), ("Input.Role", Roles.Bench));
        var password = owner.Page.QuerySelector(".notice .code")!.TextContent;

        using var ines = app.Client();
        await ines.Open("/account/sign-in");
        await ines.Press("Sign in", ("Input.Email", "ines@example.com"), ("Input.Password", password));
        Assert.Equal("/account/password", ines.Url);
        await ines.Open("/account");
        Assert.Equal("/account/password", ines.Url);

        await ines.Press("Change password", ("Input.CurrentPassword", password), ("Input.Password", "my own long words"), ("Input.Again", "my own long words"));
        Assert.Equal("/account", ines.Url);
        Assert.Equal("Your password is changed.", ines.Notice);
    }

    [Fact]
    public async Task The_same_address_twice_is_refused_and_what_was_typed_stays()
    {
        await using var app = await ShopApp.Start(server);
        using var owner = await app.SignedIn();
        await owner.Open("/shop/people");
        await owner.Press("Add person", ("Input.Name", "Another"), ("Input.Email", "BENCH@example.com"), ("Input.Role", Roles.Bench));
        Assert.Equal(["BENCH@example.com already has an account: use another e-mail address, or reset that account's password."], owner.Errors);
        Assert.Equal("Another", owner.Value("Input.Name"));
    }

    [Fact]
    public async Task The_last_owner_can_neither_be_deactivated_nor_become_something_else()
    {
        await using var app = await ShopApp.Start(server);
        var owner = (await app.With((AccountService accounts) => accounts.List())).Single(person => person.Role == Roles.Owner);
        Assert.Equal(new LastOwner("Mara Quill"), (await app.With((AccountService accounts) => accounts.SetActive(owner.Id, false))).Failure);
        Assert.Equal(new LastOwner("Mara Quill"), (await app.With((AccountService accounts) => accounts.SetRole(owner.Id, Roles.Counter))).Failure);
    }

    [Fact]
    public async Task Two_owners_who_demote_each_other_at_the_same_moment_leave_one()
    {
        await using var app = await ShopApp.Start(server);
        var people = await app.With((AccountService accounts) => accounts.List());
        var pair = people.Where(person => person.Role is Roles.Owner or Roles.Bench).Select(person => person.Id).ToList();
        for (var round = 0; round < 8; round++)
        {
            foreach (var id in pair)
                await app.With((AccountService accounts) => accounts.SetRole(id, Roles.Owner));
            await Task.WhenAll(pair.Select((id, place) => Task.Run(
                () => app.With((AccountService accounts) => place == 0 ? accounts.SetRole(id, Roles.Bench) : accounts.SetActive(id, false)),
                TestContext.Current.CancellationToken)));
            Assert.Single(await app.With((AccountService accounts) => accounts.List()), person => person is { Role: Roles.Owner, Active: true });
            foreach (var id in pair)
                await app.With((AccountService accounts) => accounts.SetActive(id, true));
        }
    }

    [Fact]
    public async Task A_deactivated_person_cannot_sign_in()
    {
        await using var app = await ShopApp.Start(server);
        var bench = (await app.With((AccountService accounts) => accounts.List())).Single(person => person.Role == Roles.Bench);
        await app.With((AccountService accounts) => accounts.SetActive(bench.Id, false));
        using var client = app.Client();
        await client.Open("/account/sign-in");
        await client.Press("Sign in", ("Input.Email", "bench@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Single(client.Errors);
    }

    [Fact]
    public async Task Signing_out_everywhere_ends_the_other_sessions_and_keeps_this_one()
    {
        await using var app = await ShopApp.Start(server);
        // The stamp is looked at once a minute; here at every request.
        app.Services.GetRequiredService<IOptions<SecurityStampValidatorOptions>>().Value.ValidationInterval = TimeSpan.Zero;
        using var here = await app.SignedIn();
        using var elsewhere = await app.SignedIn();
        await here.Press("Sign out everywhere else");
        Assert.Equal("/account", here.Url);
        await elsewhere.Open("/account");
        Assert.StartsWith("/account/sign-in", elsewhere.Url);
    }

    [Fact]
    public async Task The_reset_command_hands_out_a_new_password_and_ends_open_sessions()
    {
        await using var app = await ShopApp.Start(server);
        app.Services.GetRequiredService<IOptions<SecurityStampValidatorOptions>>().Value.ValidationInterval = TimeSpan.Zero;
        using var owner = await app.SignedIn();
        var reset = await app.With((AccountService accounts) => accounts.Reset("owner@example.com"));
        await owner.Open("/account");
        Assert.StartsWith("/account/sign-in", owner.Url);
        await owner.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Single(owner.Errors);
        await owner.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", reset.Value!.Password));
        Assert.Equal("/account/password", owner.Url);
    }

    [Fact]
    public async Task A_wrong_present_password_changes_nothing()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/account/password");
        await client.Press("Change password", ("Input.CurrentPassword", "wrong"), ("Input.Password", "my own long words"), ("Input.Again", "my own long words"));
        Assert.Equal("The present password is not right: type it again.", client.Page.QuerySelector("#Input_CurrentPassword-error")!.TextContent);
    }
}
