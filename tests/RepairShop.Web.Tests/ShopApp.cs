using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Testing;

namespace RepairShop.Web.Tests;

/// <summary>The whole program on a database and data folder of one test's own.</summary>
public sealed class ShopApp : WebApplicationFactory<Program>
{
    public const string Password = "four easy words here";

    private readonly TestDatabase database;
    private readonly Dictionary<string, string> settings;

    private ShopApp(TestDatabase database, Dictionary<string, string> settings) => (this.database, this.settings) = (database, settings);

    public string DataDirectory { get; } = TestFolders.Create("web");

    public string ConnectionString => database.ConnectionString;

    /// <summary>An empty shop, as on the first start.</summary>
    public static async Task<ShopApp> StartEmpty(PostgresServer server, params (string Key, string Value)[] settings) =>
        StartEmpty(await server.CreateDatabaseAsync(), settings);

    private static ShopApp StartEmpty(TestDatabase database, (string Key, string Value)[] settings) =>
        new(database, settings.ToDictionary(one => one.Key, one => one.Value));

    /// <summary>With one account of each role: owner@, bench@ and counter@example.com, all with <see cref="Password"/>.</summary>
    public static async Task<ShopApp> Start(PostgresServer server, params (string Key, string Value)[] settings) =>
        await Start(await server.CreateDatabaseAsync(), settings);

    /// <summary>The same on a database a test has made for itself.</summary>
    public static async Task<ShopApp> Start(TestDatabase database, params (string Key, string Value)[] settings)
    {
        var app = StartEmpty(database, settings);
        await using var scope = app.Services.CreateAsyncScope();
        var accounts = scope.ServiceProvider.GetRequiredService<AccountService>();
        var code = app.Services.GetRequiredService<FirstStart>().Code;
        var owner = await accounts.CreateFirstOwner(code, new NewPerson("Mara Quill", Email(Roles.Owner), Roles.Owner), Password);
        if (!owner.IsDone)
            throw new InvalidOperationException(owner.Failure.Message);
        foreach (var role in new[] { Roles.Bench, Roles.Counter })
            await app.AddPerson(role);
        return app;
    }

    public static string Email(string role) => $"{role}@example.com";

    public FormClient Client(bool followRedirects = true) => new(CreateClient(new WebApplicationFactoryClientOptions
    {
        AllowAutoRedirect = followRedirects,
        BaseAddress = new Uri("http://localhost"),
    }));

    public async Task<FormClient> SignedIn(string role = Roles.Owner)
    {
        var client = Client();
        await client.Open("/account/sign-in?to=/account");
        await client.Press("Sign in", ("Input.Email", Email(role)), ("Input.Password", Password));
        if (client.Url != "/account")
            throw new InvalidOperationException($"Signing in as {role} led to {client.Url}: {client.Text}");
        return client;
    }

    /// <summary>Works on the services of this program as a request would.</summary>
    public async Task<T> With<TService, T>(Func<TService, Task<T>> work)
        where TService : notnull
    {
        await using var scope = Services.CreateAsyncScope();
        return await work(scope.ServiceProvider.GetRequiredService<TService>());
    }

    public Task<T> WithDb<T>(Func<ShopDb, Task<T>> work) => With(work);

    public string Log() => string.Concat(
        Directory.GetFiles(Path.Combine(DataDirectory, "logs")).Order().Select(file =>
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using var reader = new StreamReader(stream);
            return reader.ReadToEnd();
        }));

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("data", DataDirectory);
        builder.UseSetting("ConnectionStrings:Shop", database.ConnectionString);
        builder.UseSetting("WarmUp", "false"); // A test's log and statements are its own.
        foreach (var (key, value) in settings)
            builder.UseSetting(key, value);
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        await database.DisposeAsync();
        Directory.Delete(DataDirectory, recursive: true);
    }

    private async Task AddPerson(string role)
    {
        await using var scope = Services.CreateAsyncScope();
        var accounts = scope.ServiceProvider.GetRequiredService<AccountService>();
        var people = scope.ServiceProvider.GetRequiredService<Microsoft.AspNetCore.Identity.UserManager<Account>>();
        var added = await accounts.Add(new NewPerson($"The {role}", Email(role), role));
        var account = await people.FindByEmailAsync(Email(role));
        await accounts.ChangePassword(account!, added.Value!.Password, Password);
    }
}
