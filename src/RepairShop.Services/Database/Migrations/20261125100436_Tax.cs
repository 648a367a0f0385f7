using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Tax : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ux_invoices_credited_once",
                table: "invoices");

            migrationBuilder.AddColumn<string>(
                name: "category",
                table: "tax_rates",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Standard");

            migrationBuilder.AddColumn<string>(
                name: "reason",
                table: "tax_rates",
                type: "character varying(500)",
                maxLength: 500,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<DateOnly>(
                name: "valid_from",
                table: "tax_rates",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "valid_until",
                table: "tax_rates",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "cash_step",
                table: "shop",
                type: "numeric(18,4)",
                precision: 18,
                scale: 4,
                nullable: false,
                defaultValue: 0m);

            migrationBuilder.AddColumn<string>(
                name: "e_invoices",
                table: "shop",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Never");

            migrationBuilder.AddColumn<string>(
                name: "registration_number",
                table: "shop",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "e_invoice_hash",
                table: "papers",
                type: "character varying(64)",
                maxLength: 64,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<decimal>(
                name: "cash_rounding",
                table: "invoices",
                type: "numeric(18,4)",
                precision: 18,
                scale: 4,
                nullable: false,
                defaultValue: 0m);

            migrationBuilder.AddColumn<decimal>(
                name: "cash_step",
                table: "invoices",
                type: "numeric(18,4)",
                precision: 18,
                scale: 4,
                nullable: false,
                defaultValue: 0m);

            migrationBuilder.AddColumn<Guid>(
                name: "tax_profile_id",
                table: "invoices",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "tax_rounding",
                table: "invoices",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "PerRate");

            migrationBuilder.AddColumn<string>(
                name: "treatment",
                table: "invoices",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Charged");

            migrationBuilder.AddColumn<decimal>(
                name: "change_amount",
                table: "invoice_lines",
                type: "numeric(18,4)",
                precision: 18,
                scale: 4,
                nullable: false,
                defaultValue: 0m);

            migrationBuilder.AddColumn<decimal>(
                name: "change_percent",
                table: "invoice_lines",
                type: "numeric(9,4)",
                precision: 9,
                scale: 4,
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "credits_line_id",
                table: "invoice_lines",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "deposit_id",
                table: "invoice_lines",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "tax_category",
                table: "invoice_lines",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Standard");

            migrationBuilder.AddColumn<string>(
                name: "tax_category",
                table: "estimate_lines",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Standard");

            migrationBuilder.AddColumn<Guid>(
                name: "tax_profile_id",
                table: "customers",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "invoice_changes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    invoice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    text = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    percent = table.Column<decimal>(type: "numeric(9,4)", precision: 9, scale: 4, nullable: true),
                    amount = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_invoice_changes", x => x.id);
                    table.ForeignKey(
                        name: "fk_invoice_changes_invoices_invoice_id",
                        column: x => x.invoice_id,
                        principalTable: "invoices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "invoice_taxes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    invoice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    category = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    name = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    percent = table.Column<decimal>(type: "numeric(7,4)", precision: 7, scale: 4, nullable: false),
                    @base = table.Column<decimal>(name: "base", type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    tax = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_invoice_taxes", x => x.id);
                    table.ForeignKey(
                        name: "fk_invoice_taxes_invoices_invoice_id",
                        column: x => x.invoice_id,
                        principalTable: "invoices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tax_profiles",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    treatment = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    prices_include_tax = table.Column<bool>(type: "boolean", nullable: false),
                    taxes_labour = table.Column<bool>(type: "boolean", nullable: false),
                    rounding = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    cash_accounting = table.Column<bool>(type: "boolean", nullable: false),
                    valid_from = table.Column<DateOnly>(type: "date", nullable: true),
                    valid_until = table.Column<DateOnly>(type: "date", nullable: true),
                    is_usual = table.Column<bool>(type: "boolean", nullable: false),
                    retired_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tax_profiles", x => x.id);
                    table.CheckConstraint("ck_tax_profiles_days", "valid_from <= valid_until");
                });

            migrationBuilder.AddCheckConstraint(
                name: "ck_tax_rates_days",
                table: "tax_rates",
                sql: "valid_from <= valid_until");

            migrationBuilder.AddCheckConstraint(
                name: "ck_shop_cash_step",
                table: "shop",
                sql: "cash_step >= 0");

            migrationBuilder.CreateIndex(
                name: "ix_invoices_credits_id",
                table: "invoices",
                column: "credits_id");

            migrationBuilder.CreateIndex(
                name: "ix_invoices_tax_profile_id",
                table: "invoices",
                column: "tax_profile_id");

            migrationBuilder.AddCheckConstraint(
                name: "ck_invoices_credited",
                table: "invoices",
                sql: "kind <> 'Invoice' or issued_at is null or credited <= gross + cash_rounding");

            migrationBuilder.CreateIndex(
                name: "ix_invoice_lines_credits_line_id",
                table: "invoice_lines",
                column: "credits_line_id");

            migrationBuilder.CreateIndex(
                name: "ix_invoice_lines_deposit_id",
                table: "invoice_lines",
                column: "deposit_id");

            migrationBuilder.CreateIndex(
                name: "ix_customers_tax_profile_id",
                table: "customers",
                column: "tax_profile_id");

            migrationBuilder.CreateIndex(
                name: "ix_invoice_changes_invoice_id",
                table: "invoice_changes",
                column: "invoice_id");

            migrationBuilder.CreateIndex(
                name: "ix_invoice_taxes_invoice_id",
                table: "invoice_taxes",
                column: "invoice_id");

            migrationBuilder.AddForeignKey(
                name: "fk_customers_tax_profiles_tax_profile_id",
                table: "customers",
                column: "tax_profile_id",
                principalTable: "tax_profiles",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_invoice_lines_invoice_lines_credits_line_id",
                table: "invoice_lines",
                column: "credits_line_id",
                principalTable: "invoice_lines",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_invoice_lines_invoices_deposit_id",
                table: "invoice_lines",
                column: "deposit_id",
                principalTable: "invoices",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_invoices_tax_profiles_tax_profile_id",
                table: "invoices",
                column: "tax_profile_id",
                principalTable: "tax_profiles",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_customers_tax_profiles_tax_profile_id",
                table: "customers");

            migrationBuilder.DropForeignKey(
                name: "fk_invoice_lines_invoice_lines_credits_line_id",
                table: "invoice_lines");

            migrationBuilder.DropForeignKey(
                name: "fk_invoice_lines_invoices_deposit_id",
                table: "invoice_lines");

            migrationBuilder.DropForeignKey(
                name: "fk_invoices_tax_profiles_tax_profile_id",
                table: "invoices");

            migrationBuilder.DropTable(
                name: "invoice_changes");

            migrationBuilder.DropTable(
                name: "invoice_taxes");

            migrationBuilder.DropTable(
                name: "tax_profiles");

            migrationBuilder.DropCheckConstraint(
                name: "ck_tax_rates_days",
                table: "tax_rates");

            migrationBuilder.DropCheckConstraint(
                name: "ck_shop_cash_step",
                table: "shop");

            migrationBuilder.DropIndex(
                name: "ix_invoices_credits_id",
                table: "invoices");

            migrationBuilder.DropIndex(
                name: "ix_invoices_tax_profile_id",
                table: "invoices");

            migrationBuilder.DropCheckConstraint(
                name: "ck_invoices_credited",
                table: "invoices");

            migrationBuilder.DropIndex(
                name: "ix_invoice_lines_credits_line_id",
                table: "invoice_lines");

            migrationBuilder.DropIndex(
                name: "ix_invoice_lines_deposit_id",
                table: "invoice_lines");

            migrationBuilder.DropIndex(
                name: "ix_customers_tax_profile_id",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "category",
                table: "tax_rates");

            migrationBuilder.DropColumn(
                name: "reason",
                table: "tax_rates");

            migrationBuilder.DropColumn(
                name: "valid_from",
                table: "tax_rates");

            migrationBuilder.DropColumn(
                name: "valid_until",
                table: "tax_rates");

            migrationBuilder.DropColumn(
                name: "cash_step",
                table: "shop");

            migrationBuilder.DropColumn(
                name: "e_invoices",
                table: "shop");

            migrationBuilder.DropColumn(
                name: "registration_number",
                table: "shop");

            migrationBuilder.DropColumn(
                name: "e_invoice_hash",
                table: "papers");

            migrationBuilder.DropColumn(
                name: "cash_rounding",
                table: "invoices");

            migrationBuilder.DropColumn(
                name: "cash_step",
                table: "invoices");

            migrationBuilder.DropColumn(
                name: "tax_profile_id",
                table: "invoices");

            migrationBuilder.DropColumn(
                name: "tax_rounding",
                table: "invoices");

            migrationBuilder.DropColumn(
                name: "treatment",
                table: "invoices");

            migrationBuilder.DropColumn(
                name: "change_amount",
                table: "invoice_lines");

            migrationBuilder.DropColumn(
                name: "change_percent",
                table: "invoice_lines");

            migrationBuilder.DropColumn(
                name: "credits_line_id",
                table: "invoice_lines");

            migrationBuilder.DropColumn(
                name: "deposit_id",
                table: "invoice_lines");

            migrationBuilder.DropColumn(
                name: "tax_category",
                table: "invoice_lines");

            migrationBuilder.DropColumn(
                name: "tax_category",
                table: "estimate_lines");

            migrationBuilder.DropColumn(
                name: "tax_profile_id",
                table: "customers");

            migrationBuilder.CreateIndex(
                name: "ux_invoices_credited_once",
                table: "invoices",
                column: "credits_id",
                unique: true);
        }
    }
}
