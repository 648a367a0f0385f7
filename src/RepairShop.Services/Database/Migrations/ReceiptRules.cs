using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about customers' money: receipts add up, credit never falls below zero, nothing of it
/// changes, and what was written off is not owed. Comes after the migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000020_ReceiptRules")]
public sealed class ReceiptRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "090-receipts");
}
