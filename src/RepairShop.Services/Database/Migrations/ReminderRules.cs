using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>What the mapper can't say about reminders: steps in order, never more than is owed, a fee once, and nothing of it
/// changes. Comes after the migration that makes the tables.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000050_ReminderRules")]
public sealed class ReminderRules : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "110-reminders");
}
