using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Receipts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ux_journal_invoice",
                table: "journal_entries");

            migrationBuilder.DropCheckConstraint(
                name: "ck_journal_entries_paper",
                table: "journal_entries");

            migrationBuilder.AddColumn<Guid>(
                name: "receipt_id",
                table: "payments",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "credit_id",
                table: "journal_entries",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "write_off_id",
                table: "journal_entries",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "written_off",
                table: "invoices",
                type: "numeric(18,4)",
                precision: 18,
                scale: 4,
                nullable: false,
                defaultValue: 0m);

            migrationBuilder.CreateTable(
                name: "receipts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    customer_id = table.Column<Guid>(type: "uuid", nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    amount = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    method = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    reference = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    paid_on = table.Column<DateOnly>(type: "date", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<Guid>(type: "uuid", nullable: false),
                    takes_back_id = table.Column<Guid>(type: "uuid", nullable: true),
                    form_key = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_receipts", x => x.id);
                    table.CheckConstraint("ck_receipts_amount", "amount <> 0 and (amount < 0) = (takes_back_id is not null) and method <> 'CustomerCredit'");
                    table.ForeignKey(
                        name: "fk_receipts_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_receipts_receipts_takes_back_id",
                        column: x => x.takes_back_id,
                        principalTable: "receipts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "write_offs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    invoice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    amount = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    on = table.Column<DateOnly>(type: "date", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<Guid>(type: "uuid", nullable: false),
                    takes_back_id = table.Column<Guid>(type: "uuid", nullable: true),
                    form_key = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_write_offs", x => x.id);
                    table.CheckConstraint("ck_write_offs_amount", "amount <> 0 and (amount < 0) = (takes_back_id is not null)");
                    table.ForeignKey(
                        name: "fk_write_offs_invoices_invoice_id",
                        column: x => x.invoice_id,
                        principalTable: "invoices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_write_offs_write_offs_takes_back_id",
                        column: x => x.takes_back_id,
                        principalTable: "write_offs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "customer_credits",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    customer_id = table.Column<Guid>(type: "uuid", nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    amount = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    receipt_id = table.Column<Guid>(type: "uuid", nullable: true),
                    payment_id = table.Column<Guid>(type: "uuid", nullable: true),
                    method = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    reference = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    on = table.Column<DateOnly>(type: "date", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<Guid>(type: "uuid", nullable: false),
                    takes_back_id = table.Column<Guid>(type: "uuid", nullable: true),
                    form_key = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_customer_credits", x => x.id);
                    table.CheckConstraint("ck_customer_credits_amount", "amount <> 0");
                    table.CheckConstraint("ck_customer_credits_kind", "(kind = 'LeftOver') = (receipt_id is not null) and (kind = 'Invoice') = (payment_id is not null) and (kind in ('PaidBack', 'Fee')) = (form_key is not null)");
                    table.ForeignKey(
                        name: "fk_customer_credits_customer_credits_takes_back_id",
                        column: x => x.takes_back_id,
                        principalTable: "customer_credits",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_customer_credits_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_customer_credits_payments_payment_id",
                        column: x => x.payment_id,
                        principalTable: "payments",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_customer_credits_receipts_receipt_id",
                        column: x => x.receipt_id,
                        principalTable: "receipts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_payments_receipt_id",
                table: "payments",
                column: "receipt_id");

            migrationBuilder.CreateIndex(
                name: "ux_journal_credit",
                table: "journal_entries",
                column: "credit_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_journal_invoice",
                table: "journal_entries",
                column: "invoice_id",
                unique: true,
                filter: "payment_id is null and write_off_id is null");

            migrationBuilder.CreateIndex(
                name: "ux_journal_write_off",
                table: "journal_entries",
                column: "write_off_id",
                unique: true);

            migrationBuilder.AddCheckConstraint(
                name: "ck_journal_entries_paper",
                table: "journal_entries",
                sql: "num_nonnulls(movement_id, invoice_id, credit_id) = 1 and num_nonnulls(payment_id, write_off_id) <= 1 and (invoice_id is not null or num_nonnulls(payment_id, write_off_id) = 0)");

            migrationBuilder.AddCheckConstraint(
                name: "ck_invoices_written_off",
                table: "invoices",
                sql: "written_off = 0 or (written_off > 0 and written_off <= gross + cash_rounding - credited - paid)");

            migrationBuilder.CreateIndex(
                name: "ix_customer_credits_customer_id_currency",
                table: "customer_credits",
                columns: new[] { "customer_id", "currency" })
                .Annotation("Npgsql:IndexInclude", new[] { "amount" });

            migrationBuilder.CreateIndex(
                name: "ux_customer_credits_form_key",
                table: "customer_credits",
                column: "form_key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_customer_credits_payment",
                table: "customer_credits",
                column: "payment_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_customer_credits_receipt",
                table: "customer_credits",
                column: "receipt_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_customer_credits_taken_back_once",
                table: "customer_credits",
                column: "takes_back_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_receipts_customer_id",
                table: "receipts",
                column: "customer_id");

            migrationBuilder.CreateIndex(
                name: "ux_receipts_form_key",
                table: "receipts",
                column: "form_key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_receipts_taken_back_once",
                table: "receipts",
                column: "takes_back_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_write_offs_invoice_id",
                table: "write_offs",
                column: "invoice_id");

            migrationBuilder.CreateIndex(
                name: "ux_write_offs_form_key",
                table: "write_offs",
                column: "form_key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_write_offs_undone_once",
                table: "write_offs",
                column: "takes_back_id",
                unique: true);

            migrationBuilder.AddForeignKey(
                name: "fk_journal_entries_customer_credits_credit_id",
                table: "journal_entries",
                column: "credit_id",
                principalTable: "customer_credits",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_journal_entries_write_offs_write_off_id",
                table: "journal_entries",
                column: "write_off_id",
                principalTable: "write_offs",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_payments_receipts_receipt_id",
                table: "payments",
                column: "receipt_id",
                principalTable: "receipts",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_journal_entries_customer_credits_credit_id",
                table: "journal_entries");

            migrationBuilder.DropForeignKey(
                name: "fk_journal_entries_write_offs_write_off_id",
                table: "journal_entries");

            migrationBuilder.DropForeignKey(
                name: "fk_payments_receipts_receipt_id",
                table: "payments");

            migrationBuilder.DropTable(
                name: "customer_credits");

            migrationBuilder.DropTable(
                name: "write_offs");

            migrationBuilder.DropTable(
                name: "receipts");

            migrationBuilder.DropIndex(
                name: "ix_payments_receipt_id",
                table: "payments");

            migrationBuilder.DropIndex(
                name: "ux_journal_credit",
                table: "journal_entries");

            migrationBuilder.DropIndex(
                name: "ux_journal_invoice",
                table: "journal_entries");

            migrationBuilder.DropIndex(
                name: "ux_journal_write_off",
                table: "journal_entries");

            migrationBuilder.DropCheckConstraint(
                name: "ck_journal_entries_paper",
                table: "journal_entries");

            migrationBuilder.DropCheckConstraint(
                name: "ck_invoices_written_off",
                table: "invoices");

            migrationBuilder.DropColumn(
                name: "receipt_id",
                table: "payments");

            migrationBuilder.DropColumn(
                name: "credit_id",
                table: "journal_entries");

            migrationBuilder.DropColumn(
                name: "write_off_id",
                table: "journal_entries");

            migrationBuilder.DropColumn(
                name: "written_off",
                table: "invoices");

            migrationBuilder.CreateIndex(
                name: "ux_journal_invoice",
                table: "journal_entries",
                column: "invoice_id",
                unique: true,
                filter: "payment_id is null");

            migrationBuilder.AddCheckConstraint(
                name: "ck_journal_entries_paper",
                table: "journal_entries",
                sql: "(movement_id is null) <> (invoice_id is null) and (payment_id is null or invoice_id is not null)");
        }
    }
}
