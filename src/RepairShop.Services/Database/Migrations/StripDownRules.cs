using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about the strip-down: lots that add up, and nothing left in the tray of a ready camera.
/// Comes after the migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261125235900_StripDownRules")]
public sealed class StripDownRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "050-strip-down");
}
