using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

public class LogAndErrorTests(PostgresServer server)
{
    [Fact]
    public async Task A_request_leaves_one_line_with_the_persons_id_and_no_name()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/account/password?secret=query");
        var id = (await app.With((AccountService accounts) => accounts.List())).Single(person => person.Role == Roles.Owner).Id;
        var log = app.Log();
        var line = Assert.Single(log.Split('\n'), line => line.Contains("GET /account/password"));
        Assert.Contains($"200 in", line);
        Assert.EndsWith($"by {id}", line.TrimEnd());
        Assert.DoesNotContain("Mara", log);
        Assert.DoesNotContain("owner@example.com", log);
        Assert.DoesNotContain("secret", log);
        Assert.DoesNotContain(ShopApp.Password, log);
    }

    [Fact]
    public async Task A_customers_link_is_a_key_and_leaves_no_copy_of_itself_in_the_log()
    {
        await using var app = await ShopApp.Start(server);
        using var customer = app.Client();
        var token = new string('k', 43);
        await customer.Open($"/answer/{token}");
        await customer.Open($"/ANSWER/{token}/further");
        await customer.Open("/answer/thanks");
        var log = app.Log();
        Assert.DoesNotContain(token, log);
        Assert.Contains("GET /answer/… 404 in", log);
        Assert.Contains("GET /answer/thanks 200 in", log);
    }

    [Theory]
    [InlineData("/no-such-page", HttpStatusCode.NotFound, "Not found")]
    [InlineData("/shop", HttpStatusCode.Forbidden, "Not for this account")]
    public async Task A_refused_page_says_so_in_plain_words_with_a_reference_that_is_in_the_log(string url, HttpStatusCode status, string heading)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn(Roles.Bench);
        await client.Open(url);
        Assert.Equal(status, client.Status);
        Assert.Equal(heading, client.Heading);
        var reference = client.Page.QuerySelector(".code")!.TextContent;
        Assert.Matches("^[2-9A-Z]{8}$", reference);
        Assert.Contains($" {reference} GET {url} {(int)status} in", app.Log());
    }

    [Fact]
    public async Task A_fault_shows_a_reference_and_the_log_has_the_exception_beside_it_once()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await app.WithDb(db => db.Database.ExecuteSqlAsync($"alter table audit rename to mislaid"));
        await client.Open("/shop/audit");
        Assert.Equal(HttpStatusCode.InternalServerError, client.Status);
        Assert.Equal("Something broke", client.Heading);
        Assert.DoesNotContain("audit\" does not exist", client.Text);
        var log = app.Log();
        Assert.Single(log.Split('\n'), line => line.StartsWith("Npgsql.PostgresException", StringComparison.Ordinal) && line.Contains("\"audit\" does not exist"));
        Assert.Contains($" ERR {client.Page.QuerySelector(".code")!.TextContent} ", log);
    }

    [Fact]
    public async Task Files_letters_and_logs_are_closed_to_other_users_of_the_machine()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such rights.");
        await using var app = await ShopApp.Start(server);
        foreach (var name in new[] { "files", "post", "logs" })
        {
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
                OperatingSystem.IsWindows() ? default : File.GetUnixFileMode(Path.Combine(app.DataDirectory, name)));
        }
    }

    [Fact]
    public async Task More_than_thirty_megabytes_are_refused_with_a_sentence()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        using var content = new ByteArrayContent(new byte[31 * 1024 * 1024]);
        await client.Send(new HttpRequestMessage(HttpMethod.Post, "/account") { Content = content });
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, client.Status);
        Assert.Equal("Too large", client.Heading);
    }

    [Fact]
    public async Task The_program_is_live_and_ready_while_the_database_answers()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Open("/health/ready");
        Assert.Equal("Healthy", client.Text);
        await client.Open("/health/live");
        Assert.Equal("Healthy", client.Text);
    }

    [Fact]
    public async Task Static_files_named_by_their_content_may_be_kept_for_a_year()
    {
        await using var app = await ShopApp.Start(server);
        using var client = app.Client();
        await client.Open("/account/sign-in");
        var sheet = client.Page.QuerySelector("link[rel=stylesheet][href*='base']")!.GetAttribute("href")!;
        using var answer = await client.Http.GetAsync(sheet, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("max-age=31536000", answer.Headers.CacheControl!.ToString());
    }
}
