using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class StripDown : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "strip_step_id",
                table: "photos",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "cleaning_ways",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(120)", maxLength: 120, nullable: false),
                    cautions = table.Column<int>(type: "integer", maxLength: 40, nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    retired_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_cleaning_ways", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "strip_trays",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    repair_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(30)", maxLength: 30, nullable: false),
                    rows = table.Column<int>(type: "integer", nullable: false),
                    columns = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    made_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_strip_trays", x => x.id);
                    table.CheckConstraint("ck_strip_trays_size", "rows between 1 and 20 and columns between 1 and 20");
                    table.ForeignKey(
                        name: "fk_strip_trays_repairs_repair_id",
                        column: x => x.repair_id,
                        principalTable: "repairs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "strip_steps",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    repair_id = table.Column<Guid>(type: "uuid", nullable: false),
                    rank = table.Column<long>(type: "bigint", nullable: false),
                    what = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    count = table.Column<int>(type: "integer", nullable: false),
                    held_by = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    remember = table.Column<int>(type: "integer", maxLength: 40, nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    shim_place = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    shim_count = table.Column<int>(type: "integer", nullable: false),
                    shim_millimetres = table.Column<double>(type: "double precision", nullable: true),
                    tray_id = table.Column<Guid>(type: "uuid", nullable: true),
                    cell_row = table.Column<int>(type: "integer", nullable: true),
                    cell_column = table.Column<int>(type: "integer", nullable: true),
                    split_from_id = table.Column<Guid>(type: "uuid", nullable: true),
                    taken_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    taken_by = table.Column<Guid>(type: "uuid", nullable: false),
                    tightened_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    struck_out_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    struck_out_reason = table.Column<string>(type: "text", nullable: false),
                    before = table.Column<string>(type: "jsonb", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_strip_steps", x => x.id);
                    table.CheckConstraint("ck_strip_steps_cell", "(cell_row is null) = (cell_column is null) and (cell_row is null or tray_id is not null)");
                    table.CheckConstraint("ck_strip_steps_counts", "count >= 0 and shim_count >= 0");
                    table.ForeignKey(
                        name: "fk_strip_steps_repairs_repair_id",
                        column: x => x.repair_id,
                        principalTable: "repairs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_strip_steps_trays_tray_id",
                        column: x => x.tray_id,
                        principalTable: "strip_trays",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "strip_items",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    repair_id = table.Column<Guid>(type: "uuid", nullable: false),
                    step_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    count = table.Column<int>(type: "integer", nullable: false),
                    cleaned_how = table.Column<string>(type: "character varying(120)", maxLength: 120, nullable: false),
                    inspected = table.Column<bool>(type: "boolean", nullable: false),
                    finding_id = table.Column<Guid>(type: "uuid", nullable: true),
                    lubrication = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    lubricant = table.Column<string>(type: "character varying(120)", maxLength: 120, nullable: false),
                    lubricated_where = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    fate = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    fate_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    fate_by = table.Column<Guid>(type: "uuid", nullable: true),
                    fate_note = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    replaced_by_use_id = table.Column<Guid>(type: "uuid", nullable: true),
                    replaced_by = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    replaced_by_provenance = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    old_goes_back = table.Column<bool>(type: "boolean", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_strip_items", x => x.id);
                    table.CheckConstraint("ck_strip_items_count", "count > 0");
                    table.CheckConstraint("ck_strip_items_reason", "fate <> 'WrittenOff' or fate_note <> ''");
                    table.CheckConstraint("ck_strip_items_replaced", "fate <> 'Replaced' or replaced_by <> ''");
                    table.ForeignKey(
                        name: "fk_strip_items_findings_finding_id",
                        column: x => x.finding_id,
                        principalTable: "findings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_strip_items_part_uses_replaced_by_use_id",
                        column: x => x.replaced_by_use_id,
                        principalTable: "part_uses",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_strip_items_repairs_repair_id",
                        column: x => x.repair_id,
                        principalTable: "repairs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_strip_items_strip_steps_step_id",
                        column: x => x.step_id,
                        principalTable: "strip_steps",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_photos_strip_step_id_file_hash",
                table: "photos",
                columns: new[] { "strip_step_id", "file_hash" },
                unique: true,
                filter: "strip_step_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_cleaning_ways_name",
                table: "cleaning_ways",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_strip_items_finding_id",
                table: "strip_items",
                column: "finding_id");

            migrationBuilder.CreateIndex(
                name: "ix_strip_items_replaced_by_use_id",
                table: "strip_items",
                column: "replaced_by_use_id");

            migrationBuilder.CreateIndex(
                name: "ix_strip_items_step_id",
                table: "strip_items",
                column: "step_id");

            migrationBuilder.CreateIndex(
                name: "ix_strip_items_still_out",
                table: "strip_items",
                column: "repair_id",
                filter: "fate = 'StillOut'");

            migrationBuilder.CreateIndex(
                name: "ix_strip_steps_repair_id_rank",
                table: "strip_steps",
                columns: new[] { "repair_id", "rank" });

            migrationBuilder.CreateIndex(
                name: "ix_strip_steps_tray_id",
                table: "strip_steps",
                column: "tray_id");

            migrationBuilder.CreateIndex(
                name: "ix_strip_trays_repair_id_name",
                table: "strip_trays",
                columns: new[] { "repair_id", "name" },
                unique: true);

            migrationBuilder.AddForeignKey(
                name: "fk_photos_strip_steps_strip_step_id",
                table: "photos",
                column: "strip_step_id",
                principalTable: "strip_steps",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_photos_strip_steps_strip_step_id",
                table: "photos");

            migrationBuilder.DropTable(
                name: "cleaning_ways");

            migrationBuilder.DropTable(
                name: "strip_items");

            migrationBuilder.DropTable(
                name: "strip_steps");

            migrationBuilder.DropTable(
                name: "strip_trays");

            migrationBuilder.DropIndex(
                name: "ix_photos_strip_step_id_file_hash",
                table: "photos");

            migrationBuilder.DropColumn(
                name: "strip_step_id",
                table: "photos");
        }
    }
}
