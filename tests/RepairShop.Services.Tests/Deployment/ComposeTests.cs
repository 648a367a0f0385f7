using System.Diagnostics;
using System.Text.RegularExpressions;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Deployment;

public sealed partial class ComposeTests
{
    internal static readonly string Root = FindRoot();
    private static readonly string Compose = File.ReadAllText(Path.Combine(Root, "docker-compose.yml"));
    private static readonly string Dockerfile = File.ReadAllText(Path.Combine(Root, "deploy", "Dockerfile"));

    [Fact]
    public void The_database_image_is_the_one_the_tests_use() =>
        Assert.Equal([PostgresServer.Image], Images().Matches(Compose).Select(match => match.Groups[1].Value));

    [Fact]
    public void Every_password_comes_from_the_environment_and_has_no_default()
    {
        var passwords = Passwords().Matches(Compose).Select(match => match.Groups[1].Value).ToList();
        Assert.Equal(2, passwords.Count);
        Assert.All(passwords, password => Assert.StartsWith("${REPAIRSHOP_DB_PASSWORD:?", password));
    }

    [Fact]
    public void The_program_does_not_run_as_root_and_listens_where_compose_expects_it()
    {
        Assert.Matches(@"(?m)^USER \$APP_UID$", Dockerfile);
        Assert.Contains("GET /health/live ", Dockerfile);
        Assert.Contains("""ENTRYPOINT ["dotnet", "RepairShop.Web.dll", "--data", "/data", "--port", "5080", "--listen", "0.0.0.0"]""", Dockerfile);
        Assert.Contains(":5080\"", Compose);
        Assert.Contains("- files:/data\n", Compose);
    }

    /// <summary>The client alone, no engine: the plugin of Docker's own packages or Debian's docker-compose, where one is installed.</summary>
    [Fact]
    public async Task Docker_compose_accepts_the_file_with_a_password_and_refuses_it_without()
    {
        foreach (var client in (string[][])[["docker", "compose"], ["docker-compose"]])
        {
            if (await RunAsync(client, null, "version") is not 0)
                continue;
            Assert.Equal(0, await RunAsync(client, "a password", "config", "--quiet"));
            Assert.NotEqual(0, await RunAsync(client, null, "config", "--quiet"));
        }
    }

    private static async Task<int> RunAsync(string[] client, string? password, params string[] arguments)
    {
        var start = new ProcessStartInfo("/usr/bin/env", [.. client, .. arguments])
        {
            WorkingDirectory = Root,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["REPAIRSHOP_DB_PASSWORD"] = password;
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await error;
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return process.ExitCode;
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "RepairShop.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The tests run outside the project's folder.");
        return folder;
    }

    [GeneratedRegex(@"(?m)^ +image: (\S+)$")]
    private static partial Regex Images();

    [GeneratedRegex(@"(?:Password='|POSTGRES_PASSWORD: )(.*)")]
    private static partial Regex Passwords();
}
