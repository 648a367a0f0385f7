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
        foreach (var script in new[] { "010-search", "011-search-words", "020-ledgers", "030-stages", "040-money" })
            RuleScript.Run(migrationBuilder, script);
    }
}
