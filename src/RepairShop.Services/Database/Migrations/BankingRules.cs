using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about bank statements: nothing of them changes, and a line has one receipt that stands. Comes after
/// the migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000040_BankingRules")]
public sealed class BankingRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "100-banking");
}
