using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Statements : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AlterColumn<Guid>(
                name: "repair_id",
                table: "papers",
                type: "uuid",
                nullable: true,
                oldClrType: typeof(Guid),
                oldType: "uuid");

            migrationBuilder.AddColumn<Guid>(
                name: "customer_id",
                table: "papers",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_papers_customer_id",
                table: "papers",
                column: "customer_id");

            migrationBuilder.AddCheckConstraint(
                name: "ck_papers_about",
                table: "papers",
                sql: "(repair_id is null) <> (customer_id is null)");

            migrationBuilder.AddForeignKey(
                name: "fk_papers_customers_customer_id",
                table: "papers",
                column: "customer_id",
                principalTable: "customers",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_papers_customers_customer_id",
                table: "papers");

            migrationBuilder.DropIndex(
                name: "ix_papers_customer_id",
                table: "papers");

            migrationBuilder.DropCheckConstraint(
                name: "ck_papers_about",
                table: "papers");

            migrationBuilder.DropColumn(
                name: "customer_id",
                table: "papers");

            migrationBuilder.AlterColumn<Guid>(
                name: "repair_id",
                table: "papers",
                type: "uuid",
                nullable: false,
                defaultValue: new Guid("00000000-0000-0000-0000-000000000000"),
                oldClrType: typeof(Guid),
                oldType: "uuid",
                oldNullable: true);
        }
    }
}
