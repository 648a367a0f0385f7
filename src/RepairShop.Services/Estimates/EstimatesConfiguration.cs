using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Estimates;

internal sealed class EstimateConfiguration : IEntityTypeConfiguration<Estimate>
{
    public void Configure(EntityTypeBuilder<Estimate> builder)
    {
        builder.ToTable("estimates");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.RepairId, row.Revision }).IsUnique();
        builder.HasIndex(row => row.SentAt).HasFilter("sent_at is not null and answer is null");
        builder.HasMany(row => row.Lines).WithOne().HasForeignKey(line => line.EstimateId);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.Property(row => row.AnsweredBy).HasMaxLength(200);
    }
}

internal sealed class EstimateLineConfiguration : IEntityTypeConfiguration<EstimateLine>
{
    public void Configure(EntityTypeBuilder<EstimateLine> builder)
    {
        builder.ToTable("estimate_lines");
        builder.Property(row => row.Text).HasMaxLength(500);
        builder.Property(row => row.Unit).HasMaxLength(20);
        builder.Property(row => row.TaxName).HasMaxLength(60);
        builder.Property(row => row.TaxPercent).HasPrecision(7, 4);
        builder.Property(row => row.TaxCategory).HasDefaultValue(TaxCategory.Standard);
    }
}

internal sealed class FurtherConsentConfiguration : IEntityTypeConfiguration<FurtherConsent>
{
    public void Configure(EntityTypeBuilder<FurtherConsent> builder)
    {
        builder.ToTable("further_consents");
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.GivenBy).HasMaxLength(200);
    }
}

internal sealed class AnswerLinkConfiguration : IEntityTypeConfiguration<AnswerLink>
{
    public void Configure(EntityTypeBuilder<AnswerLink> builder)
    {
        builder.ToTable("answer_links");
        builder.HasOne<Estimate>().WithMany().HasForeignKey(row => row.EstimateId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.TokenHash).HasMaxLength(64);
        builder.HasIndex(row => row.TokenHash).IsUnique();
    }
}
