using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Ledger : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "account_names",
                columns: table => new
                {
                    account = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    number = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    name = table.Column<string>(type: "character varying(80)", maxLength: 80, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_names", x => x.account);
                });

            migrationBuilder.CreateTable(
                name: "closed_months",
                columns: table => new
                {
                    month = table.Column<DateOnly>(type: "date", nullable: false),
                    closed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    closed_by = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_closed_months", x => x.month);
                    table.CheckConstraint("ck_closed_months_first_day", "extract(day from month) = 1");
                });

            migrationBuilder.CreateTable(
                name: "journal_entries",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityAlwaysColumn),
                    date = table.Column<DateOnly>(type: "date", nullable: false),
                    source = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    invoice_id = table.Column<Guid>(type: "uuid", nullable: true),
                    payment_id = table.Column<Guid>(type: "uuid", nullable: true),
                    movement_id = table.Column<Guid>(type: "uuid", nullable: true),
                    line_count = table.Column<int>(type: "integer", nullable: false),
                    posted_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    posted_by = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_journal_entries", x => x.id);
                    table.UniqueConstraint("ak_journal_entries_id_date_currency", x => new { x.id, x.date, x.currency });
                    table.CheckConstraint("ck_journal_entries_paper", "(movement_id is null) <> (invoice_id is null) and (payment_id is null or invoice_id is not null)");
                    table.ForeignKey(
                        name: "fk_journal_entries_invoices_invoice_id",
                        column: x => x.invoice_id,
                        principalTable: "invoices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_journal_entries_payments_payment_id",
                        column: x => x.payment_id,
                        principalTable: "payments",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_journal_entries_stock_movements_movement_id",
                        column: x => x.movement_id,
                        principalTable: "stock_movements",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "stock_layers",
                columns: table => new
                {
                    movement_id = table.Column<Guid>(type: "uuid", nullable: false),
                    part_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    quantity = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    value = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    left_quantity = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    left_value = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_stock_layers", x => x.movement_id);
                    table.CheckConstraint("ck_stock_layers_left", "left_quantity >= 0 and left_quantity <= quantity and (left_quantity > 0 or left_value = 0)");
                    table.ForeignKey(
                        name: "fk_stock_layers_parts_part_id",
                        column: x => x.part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_stock_layers_stock_movements_movement_id",
                        column: x => x.movement_id,
                        principalTable: "stock_movements",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "journal_lines",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    entry_id = table.Column<Guid>(type: "uuid", nullable: false),
                    date = table.Column<DateOnly>(type: "date", nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    account = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    amount = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    tax_name = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    tax_percent = table.Column<decimal>(type: "numeric(7,4)", precision: 7, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_journal_lines", x => x.id);
                    table.CheckConstraint("ck_journal_lines_amount", "amount <> 0");
                    table.ForeignKey(
                        name: "fk_journal_lines_journal_entries_entry_id_date_currency",
                        columns: x => new { x.entry_id, x.date, x.currency },
                        principalTable: "journal_entries",
                        principalColumns: new[] { "id", "date", "currency" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "stock_takings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    movement_id = table.Column<Guid>(type: "uuid", nullable: false),
                    layer_id = table.Column<Guid>(type: "uuid", nullable: true),
                    quantity = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    value = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_stock_takings", x => x.id);
                    table.ForeignKey(
                        name: "fk_stock_takings_stock_layers_layer_id",
                        column: x => x.layer_id,
                        principalTable: "stock_layers",
                        principalColumn: "movement_id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_stock_takings_stock_movements_movement_id",
                        column: x => x.movement_id,
                        principalTable: "stock_movements",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_journal_entries_date_number",
                table: "journal_entries",
                columns: new[] { "date", "number" });

            migrationBuilder.CreateIndex(
                name: "ix_journal_entries_number",
                table: "journal_entries",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_journal_invoice",
                table: "journal_entries",
                column: "invoice_id",
                unique: true,
                filter: "payment_id is null");

            migrationBuilder.CreateIndex(
                name: "ux_journal_movement",
                table: "journal_entries",
                column: "movement_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_journal_payment",
                table: "journal_entries",
                column: "payment_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_journal_lines_account_date",
                table: "journal_lines",
                columns: new[] { "account", "date" })
                .Annotation("Npgsql:IndexInclude", new[] { "amount", "currency", "tax_name", "tax_percent" });

            migrationBuilder.CreateIndex(
                name: "ix_journal_lines_entry_id",
                table: "journal_lines",
                column: "entry_id");

            migrationBuilder.CreateIndex(
                name: "ix_journal_lines_entry_id_date_currency",
                table: "journal_lines",
                columns: new[] { "entry_id", "date", "currency" });

            migrationBuilder.CreateIndex(
                name: "ix_stock_layers_left",
                table: "stock_layers",
                columns: new[] { "part_id", "at", "movement_id" },
                filter: "left_quantity > 0");

            migrationBuilder.CreateIndex(
                name: "ix_stock_takings_layer_id",
                table: "stock_takings",
                column: "layer_id");

            migrationBuilder.CreateIndex(
                name: "ix_stock_takings_movement_id",
                table: "stock_takings",
                column: "movement_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "account_names");

            migrationBuilder.DropTable(
                name: "closed_months");

            migrationBuilder.DropTable(
                name: "journal_lines");

            migrationBuilder.DropTable(
                name: "stock_takings");

            migrationBuilder.DropTable(
                name: "journal_entries");

            migrationBuilder.DropTable(
                name: "stock_layers");
        }
    }
}
