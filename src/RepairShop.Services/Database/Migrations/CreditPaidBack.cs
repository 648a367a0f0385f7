using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace RepairShop.Services.Database.Migrations;

/// <summary>Credit given back is money, whatever our own code would say.</summary>
[DbContext(typeof(ShopDb))]
[Migration("20261202000080_CreditPaidBack")]
public sealed class CreditPaidBack : Migration
{
    protected override void Up(MigrationBuilder migrationBuilder) => RuleScript.Run(migrationBuilder, "140-credit-paid-back");
}
