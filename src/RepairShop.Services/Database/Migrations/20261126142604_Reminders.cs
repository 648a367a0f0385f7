using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Reminders : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "reminder_fees",
                table: "shop",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "no_reminders",
                table: "customers",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<Guid>(
                name: "reminder_letter_id",
                table: "customer_credits",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "reminder_holds",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    invoice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    until = table.Column<DateOnly>(type: "date", nullable: true),
                    reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reminder_holds", x => x.id);
                    table.ForeignKey(
                        name: "fk_reminder_holds_invoices_invoice_id",
                        column: x => x.invoice_id,
                        principalTable: "invoices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "reminder_letters",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    customer_id = table.Column<Guid>(type: "uuid", nullable: false),
                    paper_id = table.Column<Guid>(type: "uuid", nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    fee = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    sent_on = table.Column<DateOnly>(type: "date", nullable: false),
                    pay_by = table.Column<DateOnly>(type: "date", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<Guid>(type: "uuid", nullable: false),
                    by_mail = table.Column<bool>(type: "boolean", nullable: false),
                    posted_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    posted_by = table.Column<Guid>(type: "uuid", nullable: true),
                    fee_waived_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    fee_waived_by = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reminder_letters", x => x.id);
                    table.CheckConstraint("ck_reminder_letters_days", "pay_by >= sent_on and fee >= 0");
                    table.CheckConstraint("ck_reminder_letters_posted", "(posted_at is null) = (posted_by is null) and (posted_at is null or not by_mail)");
                    table.CheckConstraint("ck_reminder_letters_waived", "(fee_waived_at is null) = (fee_waived_by is null) and (fee_waived_at is null or fee > 0)");
                    table.ForeignKey(
                        name: "fk_reminder_letters_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reminder_letters_papers_paper_id",
                        column: x => x.paper_id,
                        principalTable: "papers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "reminder_steps",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    days_after_due = table.Column<int>(type: "integer", nullable: false),
                    title = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    fee = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    days_to_pay = table.Column<int>(type: "integer", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reminder_steps", x => x.number);
                    table.CheckConstraint("ck_reminder_steps_sane", "number >= 1 and days_after_due >= 1 and days_to_pay >= 0 and fee >= 0");
                });

            migrationBuilder.CreateTable(
                name: "reminders",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    letter_id = table.Column<Guid>(type: "uuid", nullable: false),
                    invoice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    step = table.Column<int>(type: "integer", nullable: false),
                    title = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    sent_on = table.Column<DateOnly>(type: "date", nullable: false),
                    due = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reminders", x => x.id);
                    table.CheckConstraint("ck_reminders_due", "due > 0 and step >= 1");
                    table.ForeignKey(
                        name: "fk_reminders_invoices_invoice_id",
                        column: x => x.invoice_id,
                        principalTable: "invoices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reminders_reminder_letters_letter_id",
                        column: x => x.letter_id,
                        principalTable: "reminder_letters",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_customer_credits_reminder_letter_id",
                table: "customer_credits",
                column: "reminder_letter_id");

            migrationBuilder.AddCheckConstraint(
                name: "ck_customer_credits_fee",
                table: "customer_credits",
                sql: "(kind = 'Fee') = (reminder_letter_id is not null)");

            migrationBuilder.CreateIndex(
                name: "ix_reminder_holds_invoice_id",
                table: "reminder_holds",
                column: "invoice_id");

            migrationBuilder.CreateIndex(
                name: "ix_reminder_letters_customer_id",
                table: "reminder_letters",
                column: "customer_id");

            migrationBuilder.CreateIndex(
                name: "ix_reminder_letters_paper_id",
                table: "reminder_letters",
                column: "paper_id");

            migrationBuilder.CreateIndex(
                name: "ix_reminder_letters_sent_on",
                table: "reminder_letters",
                column: "sent_on");

            migrationBuilder.CreateIndex(
                name: "ix_reminders_letter_id",
                table: "reminders",
                column: "letter_id");

            migrationBuilder.CreateIndex(
                name: "ux_reminders_day",
                table: "reminders",
                columns: new[] { "invoice_id", "sent_on" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_reminders_step",
                table: "reminders",
                columns: new[] { "invoice_id", "step" },
                unique: true);

            migrationBuilder.AddForeignKey(
                name: "fk_customer_credits_reminder_letters_reminder_letter_id",
                table: "customer_credits",
                column: "reminder_letter_id",
                principalTable: "reminder_letters",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_customer_credits_reminder_letters_reminder_letter_id",
                table: "customer_credits");

            migrationBuilder.DropTable(
                name: "reminder_holds");

            migrationBuilder.DropTable(
                name: "reminder_steps");

            migrationBuilder.DropTable(
                name: "reminders");

            migrationBuilder.DropTable(
                name: "reminder_letters");

            migrationBuilder.DropIndex(
                name: "ix_customer_credits_reminder_letter_id",
                table: "customer_credits");

            migrationBuilder.DropCheckConstraint(
                name: "ck_customer_credits_fee",
                table: "customer_credits");

            migrationBuilder.DropColumn(
                name: "reminder_fees",
                table: "shop");

            migrationBuilder.DropColumn(
                name: "no_reminders",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "reminder_letter_id",
                table: "customer_credits");
        }
    }
}
