using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.ShutterTests;

namespace RepairShop.Services.Recordings;

internal sealed class KeptRecordingConfiguration : IEntityTypeConfiguration<KeptRecording>
{
    public void Configure(EntityTypeBuilder<KeptRecording> builder)
    {
        builder.ToTable("recordings");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<ShutterTest>().WithMany().HasForeignKey(row => row.ShutterTestId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.FileName).HasMaxLength(200);
        builder.Property(row => row.FileHash).HasMaxLength(64);
        builder.Property(row => row.AnalysisVersion).HasMaxLength(40);
        builder.Property(row => row.Rig).HasColumnType("jsonb");
        builder.Property(row => row.Result).HasColumnType("jsonb");
    }
}
