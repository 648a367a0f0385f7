using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>Two ways past "issued papers never change" are closed: moving a line onto one, and emptying a whole table.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000070_NothingSlipsIn")]
public sealed class NothingSlipsIn : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "130-nothing-slips-in");
}
