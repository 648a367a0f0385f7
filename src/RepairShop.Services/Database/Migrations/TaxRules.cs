using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about tax: discounts and rates of issued invoices stay, and credits count cash rounding too.
/// Comes after the migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261125235910_TaxRules")]
public sealed class TaxRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "080-tax");
}
