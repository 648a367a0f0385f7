using System.Net;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Accounts;

public class SignInTests(PostgresServer server)
{
    private const string Refused = "E-mail or password is not right: check both, and whether caps lock is on.";

    [Theory]
    [InlineData("owner@example.com", "wrong")]
    [InlineData("nobody@example.com", ShopApp.Password)]
    public async Task A_wrong_password_and_an_unknown_address_get_the_same_answer(string email, string password)
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Open("/account/sign-in");
        await client.Press("Sign in", ("Input.Email", email), ("Input.Password", password));
        Assert.Equal([Refused], client.Errors);
        Assert.Equal(email, client.Value("Input.Email"));
        Assert.Equal("", client.Value("Input.Password"));
    }

    [Theory]
    [InlineData("nobody@example.com")]
    [InlineData("bench@example.com")]
    [InlineData("counter@example.com")]
    public async Task A_password_is_worked_out_once_whoever_is_named_so_that_time_tells_nothing(string email)
    {
        await using var app = await ShopApp.Start(server);
        await using var scope = app.Services.CreateAsyncScope();
        var people = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        var bench = (await app.With((AccountService accounts) => accounts.List())).Single(person => person.Role == Roles.Bench);
        await app.With((AccountService accounts) => accounts.SetActive(bench.Id, false));
        people.PasswordHasher = new CountingHasher(people.PasswordHasher);
        var answer = await scope.ServiceProvider.GetRequiredService<SignInService>().SignIn(email, "wrong", remember: false);
        Assert.IsType<SignInRefused>(answer.Failure);
        Assert.Equal(1, ((CountingHasher)people.PasswordHasher).Checked);
    }

    [Fact]
    public async Task The_present_password_cannot_be_tried_out_at_a_machine_left_signed_in()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn(Roles.Bench);
        await client.Open("/account/password");
        for (var tries = 0; tries < Web.Access.SignInLimit.PerAccount; tries++)
            await Change(client, "wrong");
        await Change(client, ShopApp.Password);
        Assert.Equal(HttpStatusCode.TooManyRequests, client.Status);
        Assert.Equal(["Too many tries: wait a minute, then try again."], client.Errors);
    }

    private static Task Change(FormClient client, string present) => client.Press(
        "Change password", ("Input.CurrentPassword", present), ("Input.Password", "other words, long"), ("Input.Again", "other words, long"));

    [Fact]
    public async Task Five_wrong_passwords_lock_the_account_even_for_the_right_one()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Open("/account/sign-in");
        for (var tries = 0; tries < AccountsSetup.LockoutAfter; tries++)
            await client.Press("Sign in", ("Input.Email", "bench@example.com"), ("Input.Password", "wrong"));
        await client.Press("Sign in", ("Input.Email", "bench@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Equal(["Too many wrong passwords: this account is locked for 10 minutes. Wait, or ask the owner for a new password."], client.Errors);
    }

    [Fact]
    public async Task Passwords_cannot_be_tried_over_many_accounts_from_one_address()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Open("/account/sign-in");
        for (var tries = 0; tries < Web.Access.SignInLimit.PerAddress; tries++)
            await client.Press("Sign in", ("Input.Email", $"p{tries}@example.com"), ("Input.Password", "wrong"));
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Equal(HttpStatusCode.TooManyRequests, client.Status);
        Assert.Equal(["Too many tries from here: wait a minute, then try again."], client.Errors);
    }

    [Theory]
    [InlineData("/account/password", "/account/password")]
    [InlineData("https://evil.example/", "/")]
    [InlineData("//evil.example/", "/")]
    [InlineData("/\\evil.example", "/")]
    [InlineData("javascript:alert(1)", "/")]
    public async Task Signing_in_leads_on_to_an_address_of_this_host_and_no_other(string to, string lands)
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client(followRedirects: false);
        await client.Open("/account/sign-in?to=" + Uri.EscapeDataString(to));
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Equal(HttpStatusCode.Redirect, client.Status);
        Assert.Equal(lands, client.Response.Headers.Location!.OriginalString);
    }

    [Fact]
    public async Task The_session_cookie_is_hidden_from_script_and_from_other_sites()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client(followRedirects: false);
        await client.Open("/account/sign-in");
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        var cookie = client.Response.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith("session=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie);
        Assert.Contains("samesite=lax", cookie);
        Assert.DoesNotContain("secure", cookie);
    }

    [Fact]
    public async Task Over_https_the_session_cookie_stays_on_https()
    {
        await using var app = await ShopApp.Start(server);
        using var client = new FormClient(app.CreateClient(new() { AllowAutoRedirect = false, BaseAddress = new Uri("https://localhost") }));
        await client.Open("/account/sign-in");
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Contains("secure", client.Response.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith("session=", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Signing_out_ends_the_session()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Press("Sign out");
        await client.Open("/account");
        Assert.StartsWith("/account/sign-in", client.Url);
    }
}

internal sealed class CountingHasher(IPasswordHasher<Account> inner) : IPasswordHasher<Account>
{
    public int Checked { get; private set; }

    public string HashPassword(Account user, string password) => inner.HashPassword(user, password);

    public PasswordVerificationResult VerifyHashedPassword(Account user, string hashedPassword, string providedPassword)
    {
        Checked++;
        return inner.VerifyHashedPassword(user, hashedPassword, providedPassword);
    }
}
