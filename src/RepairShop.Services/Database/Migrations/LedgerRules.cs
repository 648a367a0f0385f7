using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about the journal: it balances, stays as written and takes nothing in a closed month; and
/// what parts are worth, first in first out. Comes after the migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000010_LedgerRules")]
public sealed class LedgerRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "070-journal");
}
