using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say: search columns, ledgers that refuse change, the stage view. Each script can run again.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261125000000_Rules")]
public sealed class Rules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder)
    {
        var assembly = typeof(Rules).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(name => name.EndsWith(".sql", StringComparison.Ordinal)).Order())
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
            migrationBuilder.Sql(reader.ReadToEnd());
        }
    }
}
