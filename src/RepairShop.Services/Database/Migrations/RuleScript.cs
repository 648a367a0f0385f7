using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>Runs one of the scripts in <c>Database/Sql</c> from a migration. Each migration names its own: a later script may need
/// tables an earlier migration does not have yet.</summary>
internal static class RuleScript
{
    public static void Run(MigrationBuilder migrationBuilder, string name)
    {
        var assembly = typeof(RuleScript).Assembly;
        var resource = assembly.GetManifestResourceNames().Single(one => one.EndsWith($".{name}.sql", StringComparison.Ordinal));
        using var reader = new StreamReader(assembly.GetManifestResourceStream(resource)!);
        migrationBuilder.Sql(reader.ReadToEnd());
    }
}
