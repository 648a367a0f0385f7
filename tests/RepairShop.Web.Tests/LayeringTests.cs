using System.Reflection;
using System.Runtime.CompilerServices;
using System.Xml.Linq;
using Xunit;

namespace RepairShop.Web.Tests;

/// <summary>
/// The five rooms of the house and who may know whom: Web → Services → Documents → Domain → Measurement. The compiler keeps project references;
/// these tests keep the table itself, packages that would come in through a neighbour, and namespaces that a project may not touch.
/// </summary>
public class LayeringTests
{
    /// <summary>One project's row: the projects it may reference, and the packages.</summary>
    private sealed record Room(string[] Projects, string[] Packages);

    private static readonly Dictionary<string, Room> Rooms = new()
    {
        ["RepairShop.Measurement"] = new([], ["MathNet.Numerics", "Microsoft.CodeAnalysis.BannedApiAnalyzers"]),
        ["RepairShop.Domain"] = new(["RepairShop.Measurement"], []),
        ["RepairShop.Documents"] = new(["RepairShop.Domain"],
            ["SkiaSharp", "SkiaSharp.HarfBuzz", "SkiaSharp.NativeAssets.Linux.NoDependencies", "HarfBuzzSharp", "HarfBuzzSharp.NativeAssets.Linux", "ScottPlot", "QRCoder", "PDFsharp"]),
        ["RepairShop.Services"] = new(["RepairShop.Domain", "RepairShop.Documents"],
            [
                "Microsoft.EntityFrameworkCore.Relational", "Microsoft.EntityFrameworkCore.Design", "Npgsql", "Npgsql.EntityFrameworkCore.PostgreSQL",
                "EFCore.NamingConventions", "Microsoft.AspNetCore.Identity.EntityFrameworkCore", "Microsoft.AspNetCore.DataProtection.EntityFrameworkCore",
                "MailKit", "MetadataExtractor", "SkiaSharp", "NAudio.Core", "CsvHelper",
            ]),
        ["RepairShop.Web"] = new(["RepairShop.Services", "RepairShop.Domain"],
            ["Serilog.AspNetCore", "Serilog.Sinks.File", "NetEscapades.AspNetCore.SecurityHeaders"]),
    };

    /// <summary>
    /// Assemblies a room's code may be compiled against beyond the base library, by the start of their names. Documents may hand on Measurement's
    /// figures, since Domain's facts hold them. Services meets HTTP in one place, where Identity's sign-in asks for it: see the test below.
    /// </summary>
    private static readonly Dictionary<string, string[]> MayUse = new()
    {
        ["RepairShop.Measurement"] = ["MathNet.Numerics"],
        ["RepairShop.Domain"] = ["RepairShop.Measurement"],
        ["RepairShop.Documents"] = ["RepairShop.Domain", "RepairShop.Measurement", "SkiaSharp", "HarfBuzzSharp", "ScottPlot", "QRCoder", "PdfSharp"],
        ["RepairShop.Services"] =
            [
                "RepairShop.Documents", "RepairShop.Domain", "RepairShop.Measurement", "Microsoft.EntityFrameworkCore", "Npgsql", "EFCore.NamingConventions",
                "Microsoft.AspNetCore.Identity", "Microsoft.Extensions.Identity", "Microsoft.AspNetCore.DataProtection", "Microsoft.AspNetCore.Cryptography",
                "Microsoft.AspNetCore.Http", "Microsoft.AspNetCore.Authentication.Abstractions", "Microsoft.Extensions.", "MailKit", "MimeKit", "MetadataExtractor", "SkiaSharp", "NAudio.Core", "CsvHelper",
            ],
        ["RepairShop.Web"] =
            [
                "RepairShop.Services", "RepairShop.Domain", "RepairShop.Measurement", "Microsoft.AspNetCore", "Microsoft.Extensions.", "Microsoft.Net.Http.Headers",
                "Serilog", "NetEscapades.AspNetCore.SecurityHeaders",
            ],
    };

    public static TheoryData<string> Projects => [.. Rooms.Keys];

    [Fact]
    public void Every_project_under_src_has_its_row_in_the_table() =>
        Assert.Equal(Rooms.Keys.Order(), Directory.GetDirectories(SourceFolder).Select(folder => Path.GetFileName(folder)!).Order());

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_references_the_projects_of_its_row_and_no_other(string project) =>
        Assert.Equal(Rooms[project].Projects.Order(), Includes(project, "ProjectReference").Select(path => Path.GetFileNameWithoutExtension(path.Replace('\\', '/'))).Order());

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_takes_only_packages_of_its_row(string project)
    {
        var others = Includes(project, "PackageReference").Except(Rooms[project].Packages).ToList();
        Assert.True(others.Count == 0, $"{project} takes {string.Join(", ", others)}, which its row in the layering table does not list.");
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_is_compiled_against_what_it_may_know_only(string project)
    {
        var strangers = Assembly.Load(project).GetReferencedAssemblies().Select(name => name.Name!)
            .Where(name => !IsBaseLibrary(name) && !MayUse[project].Any(name.StartsWith))
            .ToList();
        Assert.True(strangers.Count == 0, $"{project} is compiled against {string.Join(", ", strangers)}.");
    }

    /// <summary>Identity's SignInManager can't be derived from without the request; nothing else in Services may know that there is one.</summary>
    [Fact]
    public void Services_meets_http_where_people_sign_in_and_nowhere_else()
    {
        var services = Path.Combine(SourceFolder, "RepairShop.Services");
        var touching = Directory.GetFiles(services, "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(file => HttpNames.Any(File.ReadAllText(file).Contains))
            .Select(file => Path.GetRelativePath(services, file).Replace('\\', '/'))
            .ToList();
        Assert.NotEmpty(touching);
        Assert.All(touching, file => Assert.StartsWith("Accounts/", file));
    }

    private static readonly string[] HttpNames =
        ["using Microsoft.AspNetCore.Http", "using Microsoft.AspNetCore.Mvc", "using Microsoft.AspNetCore.Authentication", "HttpContext", "HttpRequest", "HttpResponse"];

    /// <summary>The table would be worth little if the check could not see a stranger.</summary>
    [Fact]
    public void The_check_sees_a_stranger() =>
        Assert.Contains(Assembly.Load("RepairShop.Services").GetReferencedAssemblies(),
            name => name.Name!.StartsWith("Microsoft.EntityFrameworkCore", StringComparison.Ordinal) && !IsBaseLibrary(name.Name) && !MayUse["RepairShop.Domain"].Any(name.Name.StartsWith));

    [Fact]
    public void Only_measurement_code_bans_symbols_and_it_bans_files_clocks_network_and_threads()
    {
        var banned = File.ReadAllText(Path.Combine(SourceFolder, "RepairShop.Measurement", "BannedSymbols.txt"));
        foreach (var symbol in new[] { "N:System.IO;", "N:System.Net;", "N:System.Threading;", "N:System.Threading.Tasks;", "P:System.DateTimeOffset.UtcNow;", "T:System.TimeProvider;" })
            Assert.Contains(symbol, banned);
        Assert.Contains("BannedSymbols.txt", Includes("RepairShop.Measurement", "AdditionalFiles"));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_projects_types_live_under_its_own_name(string project)
    {
        var astray = Assembly.Load(project).GetTypes()
            .Where(type => type.IsPublic && type.Namespace is not null && type.Namespace != project && !type.Namespace.StartsWith(project + ".", StringComparison.Ordinal))
            .Select(type => type.FullName).ToList();
        Assert.Empty(astray);
    }

    [Theory]
    [InlineData("RepairShop.Measurement")]
    [InlineData("RepairShop.Domain")]
    public void Figures_and_rules_do_not_wait(string project)
    {
        var waiting = Assembly.Load(project).GetTypes()
            .SelectMany(type => type.GetMethods(BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly))
            .Where(method => typeof(Task).IsAssignableFrom(method.ReturnType) || method.IsDefined(typeof(AsyncStateMachineAttribute)))
            .Select(method => $"{method.DeclaringType}.{method.Name}").ToList();
        Assert.Empty(waiting);
    }

    private static string SourceFolder { get; } = Path.GetFullPath(Path.Combine(ThisFolder(), "..", "..", "src"));

    private static string ThisFolder([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;

    private static List<string> Includes(string project, string item) =>
        [.. XDocument.Load(Path.Combine(SourceFolder, project, project + ".csproj")).Descendants(item).Select(element => element.Attribute("Include")!.Value)];

    /// <summary>The shared framework's own System assemblies; those of ASP.NET Core and its extensions are not among them.</summary>
    private static bool IsBaseLibrary(string name) =>
        name is "netstandard" or "mscorlib" or "Microsoft.CSharp" or "Microsoft.Win32.Primitives" || name == "System" || name.StartsWith("System.", StringComparison.Ordinal);
}
