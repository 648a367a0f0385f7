using System.Diagnostics;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Deployment;

/// <summary>deploy/start itself, in a small checkout and with a stand-in for the SDK that writes down what it is asked.</summary>
public sealed class StartScriptTests : IDisposable
{
    private const string StandIn = """
        #!/bin/sh
        case $1 in
            --version) echo 10.0.100 ;;
            publish)
                echo publish >>"$CHECKOUT/asked"
                [ ! -e "$CHECKOUT/src/broken.cs" ] || { echo "broken.cs(1,1): error" ; exit 1; }
                mkdir -p "$CHECKOUT/src/RepairShop.Web/bin/Release/net10.0/publish"
                : >"$CHECKOUT/src/RepairShop.Web/bin/Release/net10.0/publish/RepairShop.Web.dll" ;;
            *) echo run >>"$CHECKOUT/asked" ;;
        esac
        """;

    private readonly string checkout = TestFolders.Create("start");

    public StartScriptTests()
    {
        foreach (var folder in (string[])["deploy", "src/RepairShop.Web/bin", "seed", "sdk"])
            Directory.CreateDirectory(Path.Combine(checkout, folder));
        foreach (var script in (string[])["start", "needs.sh"])
            File.Copy(Path.Combine(ComposeTests.Root, "deploy", script), Path.Combine(checkout, "deploy", script));
        // Named by the script: a file it names and that is gone would have it build each time.
        foreach (var file in (string[])["Directory.Build.props", "Directory.Build.targets", "Directory.Packages.props", "global.json", ".editorconfig"])
            File.Copy(Path.Combine(ComposeTests.Root, file), Path.Combine(checkout, file));
        Write("seed/shop.json", "{}");
        Write("src/RepairShop.Web/Program.cs", "one");
        Write("sdk/dotnet", StandIn);
        File.SetUnixFileMode(Path.Combine(checkout, "sdk/dotnet"), UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    [Fact]
    public async Task It_builds_when_what_it_is_built_from_has_changed_and_not_otherwise()
    {
        Assert.Equal(["publish", "run"], await StartAsync());
        Assert.Equal(["run"], await StartAsync());
        File.SetLastWriteTimeUtc(Path.Combine(checkout, "src/RepairShop.Web/Program.cs"), DateTime.UtcNow.AddDays(1));
        Assert.Equal(["run"], await StartAsync());
        Write("src/RepairShop.Web/bin/made.txt", "not a source");
        Assert.Equal(["run"], await StartAsync());
        Write("src/RepairShop.Web/Program.cs", "two");
        Assert.Equal(["publish", "run"], await StartAsync());
        Write("seed/more.json", "{}");
        Assert.Equal(["publish", "run"], await StartAsync());
        File.Delete(Path.Combine(checkout, "seed/more.json"));
        Assert.Equal(["publish", "run"], await StartAsync());
        Assert.Equal(["run"], await StartAsync());
    }

    [Fact]
    public async Task A_build_that_fails_is_told_and_tried_again_and_what_was_built_before_does_not_run_in_its_place()
    {
        Assert.Equal(["publish", "run"], await StartAsync());
        Write("src/broken.cs", "?");
        Assert.Equal(["publish"], await StartAsync(exit: 1));
        Assert.Equal(["publish"], await StartAsync(exit: 1));
        File.Delete(Path.Combine(checkout, "src/broken.cs"));
        Assert.Equal(["publish", "run"], await StartAsync());
    }

    public void Dispose() => Directory.Delete(checkout, recursive: true);

    private void Write(string file, string text) => File.WriteAllText(Path.Combine(checkout, file), text);

    /// <returns>What the SDK was asked to do, in order.</returns>
    private async Task<string[]> StartAsync(int exit = 0)
    {
        var asked = Path.Combine(checkout, "asked");
        File.Delete(asked);
        var start = new ProcessStartInfo("bash", [Path.Combine(checkout, "deploy/start"), "--data", Path.Combine(checkout, "data")])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["CHECKOUT"] = checkout;
        start.Environment["PATH"] = $"{checkout}/sdk:{start.Environment["PATH"]}";
        start.Environment["ConnectionStrings__Shop"] = "Host=unused"; // or it would look for a server to start
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await output;
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(exit, process.ExitCode);
        if (exit != 0)
            Assert.Contains("broken.cs(1,1): error", error, StringComparison.Ordinal);
        return await File.ReadAllLinesAsync(asked, TestContext.Current.CancellationToken);
    }
}
