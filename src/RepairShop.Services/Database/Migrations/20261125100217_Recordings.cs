using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Recordings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "recording_hash",
                table: "readings");

            migrationBuilder.AddColumn<int>(
                name: "exposure",
                table: "readings",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "recording_id",
                table: "readings",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "step_seconds",
                table: "readings",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "trigger_seconds",
                table: "readings",
                type: "double precision",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "recordings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    repair_id = table.Column<Guid>(type: "uuid", nullable: false),
                    shutter_test_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    file_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    file_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    bytes = table.Column<long>(type: "bigint", nullable: false),
                    sample_rate_hz = table.Column<double>(type: "double precision", nullable: false),
                    duration_seconds = table.Column<double>(type: "double precision", nullable: false),
                    channels = table.Column<int>(type: "integer", nullable: false),
                    rig = table.Column<string>(type: "jsonb", nullable: false),
                    analysis_version = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    result = table.Column<string>(type: "jsonb", nullable: false),
                    capture_session = table.Column<Guid>(type: "uuid", nullable: true),
                    lost_blocks = table.Column<int>(type: "integer", nullable: false),
                    recorded_by = table.Column<Guid>(type: "uuid", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    analysed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_recordings", x => x.id);
                    table.ForeignKey(
                        name: "fk_recordings_repairs_repair_id",
                        column: x => x.repair_id,
                        principalTable: "repairs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_recordings_shutter_tests_shutter_test_id",
                        column: x => x.shutter_test_id,
                        principalTable: "shutter_tests",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_readings_recording_id_exposure",
                table: "readings",
                columns: new[] { "recording_id", "exposure" },
                unique: true,
                filter: "recording_id is not null and struck_out_reason is null");

            migrationBuilder.AddCheckConstraint(
                name: "ck_readings_recorded",
                table: "readings",
                sql: "(recording_id is null) = (exposure is null)");

            migrationBuilder.CreateIndex(
                name: "ix_recordings_repair_id",
                table: "recordings",
                column: "repair_id");

            migrationBuilder.CreateIndex(
                name: "ix_recordings_shutter_test_id",
                table: "recordings",
                column: "shutter_test_id");

            migrationBuilder.AddForeignKey(
                name: "fk_readings_recordings_recording_id",
                table: "readings",
                column: "recording_id",
                principalTable: "recordings",
                principalColumn: "id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_readings_recordings_recording_id",
                table: "readings");

            migrationBuilder.DropTable(
                name: "recordings");

            migrationBuilder.DropIndex(
                name: "ix_readings_recording_id_exposure",
                table: "readings");

            migrationBuilder.DropCheckConstraint(
                name: "ck_readings_recorded",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "exposure",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "recording_id",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "step_seconds",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "trigger_seconds",
                table: "readings");

            migrationBuilder.AddColumn<string>(
                name: "recording_hash",
                table: "readings",
                type: "character varying(64)",
                maxLength: 64,
                nullable: true);
        }
    }
}
