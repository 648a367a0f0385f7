using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about search: its indexes are kept sorted, and slips are put right in one question.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000060_SearchSpeed")]
public sealed class SearchSpeed : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "120-search-speed");
}
