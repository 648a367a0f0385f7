using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about the notebook: one page a model, guides that are only added to. Comes after the
/// migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000000_NotebookRules")]
public sealed class NotebookRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "060-notebook");
}
