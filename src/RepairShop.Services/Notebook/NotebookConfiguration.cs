using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using NpgsqlTypes;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Notebook;

internal sealed class ModelPageConfiguration : IEntityTypeConfiguration<ModelPage>
{
    /// <summary>Without regard to case, so it is written in <c>060-notebook.sql</c>.</summary>
    public const string OneName = "ix_model_pages_name";

    public void Configure(EntityTypeBuilder<ModelPage> builder)
    {
        builder.ToTable("model_pages");
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Maker).HasMaxLength(NotebookRules.NameLength);
        builder.Property(row => row.Model).HasMaxLength(NotebookRules.NameLength);
        builder.HasWordSearch("setweight(to_tsvector('english', shop_fold(maker || ' ' || model)), 'A') || to_tsvector('english', shop_fold(notes))");
    }
}

internal sealed class ModelVariantConfiguration : IEntityTypeConfiguration<ModelVariant>
{
    public void Configure(EntityTypeBuilder<ModelVariant> builder)
    {
        builder.ToTable("model_variants");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<ModelPage>().WithMany().HasForeignKey(row => row.PageId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Name).HasMaxLength(NotebookRules.NameLength);
        builder.HasWordSearch("setweight(to_tsvector('english', shop_fold(name)), 'B') || to_tsvector('english', shop_fold(traits || ' ' || note))");
    }
}

internal sealed class ModelEntryConfiguration : IEntityTypeConfiguration<ModelEntry>
{
    public void Configure(EntityTypeBuilder<ModelEntry> builder)
    {
        builder.ToTable("model_entries");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<ModelPage>().WithMany().HasForeignKey(row => row.PageId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Title).HasMaxLength(NotebookRules.NameLength);
        builder.Property(row => row.Link).HasMaxLength(NotebookRules.LinkLength);
        builder.Property(row => row.Unit).HasMaxLength(NotebookRules.UnitLength);
        builder.HasWordSearch("setweight(to_tsvector('english', shop_fold(title)), 'B') || to_tsvector('english', shop_fold(text))");
    }
}

internal sealed class ModelPhotoConfiguration : IEntityTypeConfiguration<ModelPhoto>
{
    public void Configure(EntityTypeBuilder<ModelPhoto> builder)
    {
        builder.ToTable("model_photos");
        builder.HasOne<ModelPage>().WithMany().HasForeignKey(row => row.PageId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.FileHash).HasMaxLength(64);
        builder.Property(row => row.ThumbnailHash).HasMaxLength(64);
        builder.Property(row => row.SourceHash).HasMaxLength(64);
        builder.Property(row => row.Caption).HasMaxLength(NotebookRules.CaptionLength);
        builder.HasWordSearch("to_tsvector('english', shop_fold(caption))");
    }
}

internal sealed class GuideVersionConfiguration : IEntityTypeConfiguration<GuideVersion>
{
    public const string OneNumber = "ix_guide_versions_page_id_number";

    public void Configure(EntityTypeBuilder<GuideVersion> builder)
    {
        builder.ToTable("guide_versions");
        builder.HasOne<ModelPage>().WithMany().HasForeignKey(row => row.PageId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.FromRepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.PageId, row.Number }).IsUnique().HasDatabaseName(OneNumber);
        builder.Property(row => row.Steps).HasColumnType("jsonb").HasConversion(
            steps => GuideStepsJson.Write(steps), text => GuideStepsJson.Read(text),
            new ValueComparer<List<GuideStep>>((one, other) => one!.SequenceEqual(other!), steps => steps.Count, steps => steps.ToList()));
        builder.HasWordSearch("to_tsvector('english', shop_fold(text || ' ' || note))");
    }
}

/// <summary>A guide's steps as they lie in their column. Named methods, since the compiled model can call nothing private.</summary>
internal static class GuideStepsJson
{
    private static readonly JsonSerializerOptions Json = new()
    {
        Converters = { new JsonStringEnumConverter() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    public static string Write(List<GuideStep> steps) => JsonSerializer.Serialize(steps, Json);

    public static List<GuideStep> Read(string text) => JsonSerializer.Deserialize<List<GuideStep>>(text, Json)!;
}

internal static class WordSearchColumn
{
    public const string Name = "Words";

    /// <summary>The row's words, kept by the database beside what they are taken from.</summary>
    public static void HasWordSearch<T>(this EntityTypeBuilder<T> builder, string words) where T : class
    {
        builder.Property<NpgsqlTsVector>(Name).HasComputedColumnSql(words, stored: true);
        builder.HasIndex(Name).HasMethod("gin");
    }
}
