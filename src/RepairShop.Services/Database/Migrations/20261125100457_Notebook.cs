using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NpgsqlTypes;

#nullable disable

namespace RepairShop.Services.Database.Migrations
{
    /// <inheritdoc />
    public partial class Notebook : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "model_pages",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    maker = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    model = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    marked_speeds = table.Column<string[]>(type: "text[]", nullable: false),
                    notes = table.Column<string>(type: "text", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    removed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false),
                    words = table.Column<NpgsqlTsVector>(type: "tsvector", nullable: true, computedColumnSql: "setweight(to_tsvector('english', shop_fold(maker || ' ' || model)), 'A') || to_tsvector('english', shop_fold(notes))", stored: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_model_pages", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "guide_versions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    page_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    steps = table.Column<string>(type: "jsonb", nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    from_repair_id = table.Column<Guid>(type: "uuid", nullable: true),
                    saved_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    saved_by = table.Column<Guid>(type: "uuid", nullable: false),
                    words = table.Column<NpgsqlTsVector>(type: "tsvector", nullable: true, computedColumnSql: "to_tsvector('english', shop_fold(text || ' ' || note))", stored: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_guide_versions", x => x.id);
                    table.ForeignKey(
                        name: "fk_guide_versions_model_pages_page_id",
                        column: x => x.page_id,
                        principalTable: "model_pages",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_guide_versions_repairs_from_repair_id",
                        column: x => x.from_repair_id,
                        principalTable: "repairs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "model_entries",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    page_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    title = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    link = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    caution = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    unit = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    low = table.Column<double>(type: "double precision", nullable: true),
                    high = table.Column<double>(type: "double precision", nullable: true),
                    position = table.Column<int>(type: "integer", nullable: false),
                    removed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false),
                    words = table.Column<NpgsqlTsVector>(type: "tsvector", nullable: true, computedColumnSql: "setweight(to_tsvector('english', shop_fold(title)), 'B') || to_tsvector('english', shop_fold(text))", stored: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_model_entries", x => x.id);
                    table.ForeignKey(
                        name: "fk_model_entries_model_pages_page_id",
                        column: x => x.page_id,
                        principalTable: "model_pages",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "model_photos",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    page_id = table.Column<Guid>(type: "uuid", nullable: false),
                    caption = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false),
                    file_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    thumbnail_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    source_hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    width = table.Column<int>(type: "integer", nullable: false),
                    height = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    added_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    added_by = table.Column<Guid>(type: "uuid", nullable: false),
                    removed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    words = table.Column<NpgsqlTsVector>(type: "tsvector", nullable: true, computedColumnSql: "to_tsvector('english', shop_fold(caption))", stored: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_model_photos", x => x.id);
                    table.ForeignKey(
                        name: "fk_model_photos_model_pages_page_id",
                        column: x => x.page_id,
                        principalTable: "model_pages",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "model_variants",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    page_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    traits = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    removed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false),
                    words = table.Column<NpgsqlTsVector>(type: "tsvector", nullable: true, computedColumnSql: "setweight(to_tsvector('english', shop_fold(name)), 'B') || to_tsvector('english', shop_fold(traits || ' ' || note))", stored: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_model_variants", x => x.id);
                    table.ForeignKey(
                        name: "fk_model_variants_model_pages_page_id",
                        column: x => x.page_id,
                        principalTable: "model_pages",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_guide_versions_from_repair_id",
                table: "guide_versions",
                column: "from_repair_id");

            migrationBuilder.CreateIndex(
                name: "ix_guide_versions_page_id_number",
                table: "guide_versions",
                columns: new[] { "page_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_guide_versions_words",
                table: "guide_versions",
                column: "words")
                .Annotation("Npgsql:IndexMethod", "gin");

            migrationBuilder.CreateIndex(
                name: "ix_model_entries_page_id",
                table: "model_entries",
                column: "page_id");

            migrationBuilder.CreateIndex(
                name: "ix_model_entries_words",
                table: "model_entries",
                column: "words")
                .Annotation("Npgsql:IndexMethod", "gin");

            migrationBuilder.CreateIndex(
                name: "ix_model_pages_words",
                table: "model_pages",
                column: "words")
                .Annotation("Npgsql:IndexMethod", "gin");

            migrationBuilder.CreateIndex(
                name: "ix_model_photos_page_id",
                table: "model_photos",
                column: "page_id");

            migrationBuilder.CreateIndex(
                name: "ix_model_photos_words",
                table: "model_photos",
                column: "words")
                .Annotation("Npgsql:IndexMethod", "gin");

            migrationBuilder.CreateIndex(
                name: "ix_model_variants_page_id",
                table: "model_variants",
                column: "page_id");

            migrationBuilder.CreateIndex(
                name: "ix_model_variants_words",
                table: "model_variants",
                column: "words")
                .Annotation("Npgsql:IndexMethod", "gin");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "guide_versions");

            migrationBuilder.DropTable(
                name: "model_entries");

            migrationBuilder.DropTable(
                name: "model_photos");

            migrationBuilder.DropTable(
                name: "model_variants");

            migrationBuilder.DropTable(
                name: "model_pages");
        }
    }
}
