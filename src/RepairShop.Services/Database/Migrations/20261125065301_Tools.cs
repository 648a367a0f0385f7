using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Tools : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "mounts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    camera = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    notes = table.Column<string>(type: "character varying(4000)", maxLength: 4000, nullable: false),
                    unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    retired_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false),
                    measures_gate_height = table.Column<double>(type: "double precision", nullable: true),
                    measures_gate_width = table.Column<double>(type: "double precision", nullable: true),
                    measures_notch_circle = table.Column<double>(type: "double precision", nullable: true),
                    measures_notch_depth = table.Column<double>(type: "double precision", nullable: true),
                    measures_notch_width = table.Column<double>(type: "double precision", nullable: true),
                    measures_rear_group_diameter = table.Column<double>(type: "double precision", nullable: true),
                    measures_rear_group_height = table.Column<double>(type: "double precision", nullable: true),
                    measures_recess_depth = table.Column<double>(type: "double precision", nullable: true),
                    measures_recess_diameter = table.Column<double>(type: "double precision", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_mounts", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "tools",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    fits = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false),
                    place = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    notes = table.Column<string>(type: "character varying(4000)", maxLength: 4000, nullable: false),
                    unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    other_measures = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    retired_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false),
                    spanner_cut_away_width = table.Column<double>(type: "double precision", nullable: true),
                    spanner_depth = table.Column<double>(type: "double precision", nullable: true),
                    spanner_inner_diameter = table.Column<double>(type: "double precision", nullable: true),
                    spanner_outer_diameter = table.Column<double>(type: "double precision", nullable: true),
                    spanner_pin_circle = table.Column<double>(type: "double precision", nullable: true),
                    spanner_pin_height = table.Column<double>(type: "double precision", nullable: true),
                    spanner_pin_width = table.Column<double>(type: "double precision", nullable: true),
                    spanner_pins = table.Column<int>(type: "integer", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tools", x => x.id);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "mounts");

            migrationBuilder.DropTable(
                name: "tools");
        }
    }
}
