using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Banking : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "bank_line_id",
                table: "receipts",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "bank_layouts",
                columns: table => new
                {
                    id = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    columns = table.Column<string>(type: "jsonb", nullable: false),
                    saved_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_bank_layouts", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "bank_statements",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    format = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    file_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    file_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    account = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    number = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    from = table.Column<DateOnly>(type: "date", nullable: true),
                    until = table.Column<DateOnly>(type: "date", nullable: true),
                    opening = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: true),
                    closing = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: true),
                    line_count = table.Column<int>(type: "integer", nullable: false),
                    known_count = table.Column<int>(type: "integer", nullable: false),
                    warnings = table.Column<string[]>(type: "text[]", nullable: false),
                    imported_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    imported_by = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_bank_statements", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "bank_lines",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    statement_id = table.Column<Guid>(type: "uuid", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    account = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    booked_on = table.Column<DateOnly>(type: "date", nullable: false),
                    valued_on = table.Column<DateOnly>(type: "date", nullable: true),
                    amount = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: false),
                    currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: false),
                    is_credit = table.Column<bool>(type: "boolean", nullable: false),
                    bar = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    iban = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    text = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: false),
                    reference = table.Column<string>(type: "character varying(140)", maxLength: 140, nullable: false),
                    bank_reference = table.Column<string>(type: "character varying(140)", maxLength: 140, nullable: false),
                    end_to_end_id = table.Column<string>(type: "character varying(140)", maxLength: 140, nullable: false),
                    identity = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_bank_lines", x => x.id);
                    table.CheckConstraint("ck_bank_lines_amount", "amount >= 0 and (bar <> 'None' or amount > 0 and is_credit)");
                    table.ForeignKey(
                        name: "fk_bank_lines_bank_statements_statement_id",
                        column: x => x.statement_id,
                        principalTable: "bank_statements",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "bank_line_notes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    line_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    by = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_bank_line_notes", x => x.id);
                    table.CheckConstraint("ck_bank_line_notes_number", "number > 0");
                    table.ForeignKey(
                        name: "fk_bank_line_notes_bank_lines_line_id",
                        column: x => x.line_id,
                        principalTable: "bank_lines",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_receipts_bank_line_id",
                table: "receipts",
                column: "bank_line_id");

            migrationBuilder.CreateIndex(
                name: "ux_bank_line_notes_number",
                table: "bank_line_notes",
                columns: new[] { "line_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_bank_lines_iban",
                table: "bank_lines",
                column: "iban");

            migrationBuilder.CreateIndex(
                name: "ix_bank_lines_statement_id_position",
                table: "bank_lines",
                columns: new[] { "statement_id", "position" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ux_bank_lines_identity",
                table: "bank_lines",
                column: "identity",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_bank_statements_imported_at_id",
                table: "bank_statements",
                columns: new[] { "imported_at", "id" },
                descending: new bool[0]);

            migrationBuilder.CreateIndex(
                name: "ux_bank_statements_file",
                table: "bank_statements",
                column: "file_hash",
                unique: true);

            migrationBuilder.AddForeignKey(
                name: "fk_receipts_bank_lines_bank_line_id",
                table: "receipts",
                column: "bank_line_id",
                principalTable: "bank_lines",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_receipts_bank_lines_bank_line_id",
                table: "receipts");

            migrationBuilder.DropTable(
                name: "bank_layouts");

            migrationBuilder.DropTable(
                name: "bank_line_notes");

            migrationBuilder.DropTable(
                name: "bank_lines");

            migrationBuilder.DropTable(
                name: "bank_statements");

            migrationBuilder.DropIndex(
                name: "ix_receipts_bank_line_id",
                table: "receipts");

            migrationBuilder.DropColumn(
                name: "bank_line_id",
                table: "receipts");
        }
    }
}
