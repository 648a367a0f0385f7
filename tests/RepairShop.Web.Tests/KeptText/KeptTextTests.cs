using System.Net;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using RepairShop.Testing;
using RepairShop.Web.KeptText;
using Xunit;

namespace RepairShop.Web.Tests.KeptText;

/// <summary>A session that ends while somebody types must not take the text with it.</summary>
public class KeptTextTests(PostgresServer server)
{
    private const string Typed = "Taking apart may not be reversible. <b>Łukasz</b> \"yes\" & 日本 🙂";

    [Fact]
    public async Task A_form_sent_after_the_session_ended_comes_back_after_signing_in_and_is_saved_with_one_press()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/texts");
        var form = client.Page;
        await SignOutElsewhere(client);

        await Resend(client, form, Typed);
        Assert.Equal("Sign in", client.Heading);
        Assert.Contains("Your text is safe", client.Text);
        Assert.DoesNotContain("Łukasz", client.Text);

        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Equal("Your text is safe", client.Heading);
        Assert.Contains(Typed, client.Text);

        await client.Press("Send it again");
        Assert.Equal("/shop/texts", client.Url);
        Assert.Equal("The texts are saved.", client.Notice);
        Assert.Equal(Typed, client.Value("Input.Conditions"));
    }

    [Fact]
    public void What_is_shown_of_it_is_what_a_person_typed_or_ticked()
    {
        var form = new KeptForm("/", [
            new("Input.Once", "01a21976-63fe-7961-8041-1a1bd6736ac7"), new("Input.Text", "Old oil"), new("Input.Note", " "),
            new("Input.OnServiceRecord", "true"), new("Input.OnServiceRecord", "false"), new("Input.Billable", "false"),
        ], []);
        Assert.Equal([("Text", "Old oil"), ("On service record", "yes"), ("Billable", "no")], form.Shown().Select(field => (field.Label, field.Value)));
    }

    [Fact]
    public async Task A_wrong_password_in_between_loses_nothing()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/texts");
        var form = client.Page;
        await SignOutElsewhere(client);
        await Resend(client, form, Typed);
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", "wrong"));
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Contains(Typed, client.Text);
    }

    [Fact]
    public async Task A_stale_antiforgery_token_brings_the_text_back_too()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/texts");
        await client.Press("Save texts", ("Input.Conditions", Typed), ("__RequestVerificationToken", "stale"));
        Assert.Equal("Your text is safe", client.Heading);
        await client.Press("Send it again");
        Assert.Equal(Typed, client.Value("Input.Conditions"));
    }

    [Fact]
    public async Task Passwords_are_never_carried()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/account/password");
        await client.Press("Change password",
            ("Input.CurrentPassword", ShopApp.Password), ("Input.Password", "my own long words"), ("Input.Again", "my own long words"), ("__RequestVerificationToken", "stale"));
        Assert.Equal("Change password", client.Heading);
        Assert.Equal("This page had gone stale and was loaded anew: please do it once more.", client.Notice);
        Assert.DoesNotContain("my own long words", client.Page.DocumentElement.OuterHtml);
    }

    [Fact]
    public async Task Passwords_are_not_carried_over_a_sign_in_either()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Post("/account/password", [new("Input.CurrentPassword", ShopApp.Password), new("Input.Password", "my own long words"), new("Input.Again", "my own long words")]);
        Assert.Equal("Sign in", client.Heading);
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Equal("/account/password", client.Url);
        Assert.DoesNotContain("my own long words", client.Page.DocumentElement.OuterHtml);
    }

    [Fact]
    public async Task What_one_person_typed_is_not_shown_to_another_who_signs_in_at_the_same_machine()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/texts");
        var form = client.Page;
        await EndEverySession(app);

        await Resend(client, form, Typed);
        Assert.Equal("Sign in", client.Heading);
        await client.Press("Sign in", ("Input.Email", "bench@example.com"), ("Input.Password", ShopApp.Password));
        Assert.DoesNotContain("Łukasz", client.Text);
        Assert.Equal("What was typed here belongs to somebody else, and was put away.", client.Notice);
    }

    [Fact]
    public async Task What_one_person_typed_comes_back_to_that_person_when_the_session_was_ended()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/texts");
        var form = client.Page;
        await EndEverySession(app);

        await Resend(client, form, Typed);
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password));
        Assert.Contains(Typed, client.Text);
    }

    [Fact]
    public async Task Another_sites_form_is_not_carried_over_a_sign_in()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/shop/texts")
        {
            Content = new FormUrlEncodedContent([new("Input.Conditions", "evil")]),
            Headers = { { "Origin", "https://evil.example" } },
        };
        await client.Send(request);
        Assert.Equal("Sign in", client.Heading);
        Assert.Equal("", client.Value("kept"));
    }

    [Fact]
    public async Task Another_sites_form_is_refused_where_somebody_is_signed_in()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/shop/texts")
        {
            Content = new FormUrlEncodedContent([new("Input.Conditions", "evil")]),
            Headers = { { "Sec-Fetch-Site", "cross-site" } },
        };
        await client.Send(request);
        Assert.Equal(HttpStatusCode.BadRequest, client.Status);
        Assert.Equal("That could not be read", client.Heading);
    }

    [Fact]
    public async Task A_text_too_long_to_carry_is_told()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Post("/shop/texts", [new("Input.Conditions", new string('x', KeptForms.MaxBytes))]);
        Assert.Contains("too long to carry over", client.Text);
    }

    [Fact]
    public async Task Altered_text_is_not_believed()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Post("/shop/texts", [new("Input.Conditions", "mine")]);
        await client.Press("Sign in", ("Input.Email", "owner@example.com"), ("Input.Password", ShopApp.Password), ("kept", "AAAA" + client.Value("kept")));
        Assert.NotEqual("Your text is safe", client.Heading);
    }

    /// <summary>As if they had grown too old: the cookie is still sent, and opens nothing any more.</summary>
    private static async Task EndEverySession(ShopApp app)
    {
        await app.WithDb(db => db.Users.ExecuteUpdateAsync(set => set.SetProperty(account => account.SecurityStamp, "another")));
        app.Services.GetRequiredService<IOptionsMonitor<SecurityStampValidatorOptions>>().CurrentValue.ValidationInterval = TimeSpan.Zero;
        app.Services.GetRequiredService<IOptions<SecurityStampValidatorOptions>>().Value.ValidationInterval = TimeSpan.Zero;
    }

    private static async Task SignOutElsewhere(FormClient client)
    {
        await client.Press("Sign out");
        Assert.Equal("Sign in", client.Heading);
    }

    private static Task Resend(FormClient client, AngleSharp.Html.Dom.IHtmlDocument form, string conditions) => client.Post("/shop/texts",
    [
        new("Input.Conditions", conditions),
        new("Input.Version", form.QuerySelector("[name='Input.Version']")!.GetAttribute("value")!),
        new("__RequestVerificationToken", form.QuerySelector("main [name='__RequestVerificationToken']")!.GetAttribute("value")!),
    ]);
}
